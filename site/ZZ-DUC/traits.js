"use strict";
TRAITS["ZZ-DUC"] = {
"registration": "ZZ-DUC",
"type": "Dunlin 160",
"kind": "single-engine",
"unit": "kt",
"manual": "kt",
"mark": "B72F-C534",
"remarks": [],
"flaps": ["0","10","35"],
"retracts": false,
"weight": {"value":2310.0,"unit":"lb"},
"cruise": {"value":113.0,"unit":"kt"},
"mach": null,
"glide": {"value":9.1,"entered":"9.1"},
"crosswind": {"value":15.0,"unit":"kt","entered":"15"},
"arcs": {"white":[36.0,79.0],"green":[43.0,119.0],"yellow":[119.0,151.0],"red-line":[151.0,null]},
"tightened": [],
"bench": null,
"speeds": {"VNE":["limits",{"id":"speed-VNE"},{"value":151.0,"unit":"kt","entered":"151","sense":"maximum"}],"VNO":["limits",{"id":"speed-VNO"},{"value":119.0,"unit":"kt","entered":"119","sense":"maximum"}],"VA":["limits",{"id":"speed-VA"},{"value":96.0,"unit":"kt","entered":"96","sense":"maximum"}],"VFE 10":["limits",{"id":"next-of","values":{"name":{"id":"speed-VFE"},"setting":{"id":"flaps","values":{"flaps":"10"}}}},{"value":99.0,"unit":"kt","entered":"99","sense":"maximum"}],"VFE full":["limits",{"id":"next-of","values":{"name":{"id":"speed-VFE"},"setting":{"id":"next-full"}}},{"value":79.0,"unit":"kt","entered":"79","sense":"maximum"}],"storm window":["limits",{"id":"next-own","values":{"name":"storm window"}},{"value":105.0,"unit":"kt","entered":"105","sense":"maximum"}],"VS1 clean":["limits",{"id":"speed-VS1"},{"value":43.0,"unit":"kt","entered":"43","sense":"minimum"}],"VS1 10":["limits",{"id":"next-of","values":{"name":{"id":"speed-VS1"},"setting":{"id":"flaps","values":{"flaps":"10"}}}},{"value":40.0,"unit":"kt","entered":"40","sense":"minimum"}],"VS0":["limits",{"id":"speed-VS0"},{"value":36.0,"unit":"kt","entered":"36","sense":"minimum"}],"best glide":["flown",{"id":"speed-best-glide"},{"value":69.0,"unit":"kt","entered":"69"}],"VREF":["flown",{"id":"speed-VREF"},{"value":57.0,"unit":"kt","entered":"57","sense":"minimum"}],"VY":["flown",{"id":"speed-VY"},{"value":74.0,"unit":"kt","entered":"74"}],"VX":["flown",{"id":"speed-VX"},{"value":58.0,"unit":"kt","entered":"58"}],"VR":["flown",{"id":"speed-VR"},{"value":53.0,"unit":"kt","entered":"53","sense":"minimum"}]},
"calibration": [{"x":[43.0,50.0,60.0,70.0,80.0,90.0,100.0,120.0,140.0,155.0],"y":[49.0,53.0,61.0,70.0,79.0,88.0,98.0,117.0,136.0,151.0],"flaps":"0","static_source":"normal","page":"5-7"},{"x":[40.0,50.0,60.0,70.0,80.0,90.0,100.0],"y":[47.0,53.0,61.0,70.0,79.0,88.0,97.0],"flaps":"10","static_source":"normal","page":"5-7"},{"x":[36.0,45.0,55.0,65.0,75.0,80.0],"y":[44.0,50.0,57.0,65.0,74.0,79.0],"flaps":"35","static_source":"normal","page":"5-7"},{"x":[45.0,50.0,60.0,70.0,80.0,90.0,100.0,120.0,140.0],"y":[48.0,51.0,58.0,66.0,75.0,84.0,93.0,111.0,129.0],"flaps":"0","static_source":"alternate","page":"5-8"}]
};
