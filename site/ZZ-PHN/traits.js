"use strict";
TRAITS["ZZ-PHN"] = {
"registration": "ZZ-PHN",
"type": "Phalarope 9T",
"kind": "turbine",
"unit": "kt",
"manual": "kt",
"mark": "47C5-C947",
"remarks": [],
"flaps": ["0","15","35"],
"retracts": true,
"weight": {"value":9200.0,"unit":"lb"},
"cruise": {"value":245.0,"unit":"kt"},
"mach": {"value":0.52,"entered":"0.52"},
"glide": {"value":12.6,"entered":"12.6"},
"crosswind": {"value":20.0,"unit":"kt","entered":"20"},
"arcs": {"white":[60.0,133.0],"green":[73.0,231.0],"red-line":[231.0,null]},
"tightened": [],
"bench": null,
"speeds": {"VNE":["limits",{"id":"speed-VMO"},{"value":231.0,"unit":"kt","entered":"231","sense":"maximum"}],"VA":["limits",{"id":"speed-VO"},{"value":156.0,"unit":"kt","entered":"156","sense":"maximum"}],"VFE 15":["limits",{"id":"next-of","values":{"name":{"id":"speed-VFE"},"setting":{"id":"flaps","values":{"flaps":"15"}}}},{"value":162.0,"unit":"kt","entered":"162","sense":"maximum"}],"VFE full":["limits",{"id":"next-of","values":{"name":{"id":"speed-VFE"},"setting":{"id":"next-full"}}},{"value":133.0,"unit":"kt","entered":"133","sense":"maximum"}],"VLE":["limits",{"id":"speed-VLE"},{"value":170.0,"unit":"kt","entered":"170","sense":"maximum"}],"VLO":["limits",{"id":"speed-VLO"},{"value":170.0,"unit":"kt","entered":"170","sense":"maximum"}],"VS1 clean":["limits",{"id":"speed-VS1"},{"value":73.0,"unit":"kt","entered":"73","sense":"minimum"}],"VS1 15":["limits",{"id":"next-of","values":{"name":{"id":"speed-VS1"},"setting":{"id":"flaps","values":{"flaps":"15"}}}},{"value":66.0,"unit":"kt","entered":"66","sense":"minimum"}],"VS0":["limits",{"id":"speed-VS0"},{"value":60.0,"unit":"kt","entered":"60","sense":"minimum"}],"best glide":["flown",{"id":"speed-best-glide"},{"value":107.0,"unit":"kt","entered":"107"}],"VREF":["flown",{"id":"speed-VREF"},{"value":82.0,"unit":"kt","sense":"minimum"}],"VY":["flown",{"id":"speed-VY"},{"value":115.0,"unit":"kt","entered":"115"}],"VX":["flown",{"id":"speed-VX"},{"value":99.0,"unit":"kt","entered":"99"}],"VR":["flown",{"id":"speed-VR"},{"value":78.0,"unit":"kt","entered":"78","sense":"minimum"}]},
"calibration": [{"x":[72.0,85.0,100.0,120.0,150.0,180.0,210.0,245.0],"y":[75.0,87.0,101.0,120.0,149.0,178.0,207.0,242.0],"flaps":"0","static_source":"normal","page":"5-12"},{"x":[66.0,80.0,95.0,115.0,140.0,165.0],"y":[70.0,82.0,96.0,115.0,139.0,163.0],"flaps":"15","static_source":"normal","page":"5-12"},{"x":[60.0,70.0,85.0,100.0,120.0,140.0],"y":[64.0,72.0,86.0,100.0,119.0,139.0],"flaps":"35","static_source":"normal","page":"5-12"},{"x":[80.0,100.0,120.0,150.0,180.0,210.0],"y":[80.0,97.0,116.0,144.0,173.0,202.0],"flaps":"0","static_source":"alternate","page":"5-13"}]
};
