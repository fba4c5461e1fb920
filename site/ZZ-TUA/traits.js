"use strict";
TRAITS["ZZ-TUA"] = {
"registration": "ZZ-TUA",
"type": "Turnstone 310",
"kind": "multi-engine",
"unit": "kt",
"manual": "kt",
"mark": "6B34-1124",
"remarks": [],
"flaps": ["0","10","35"],
"retracts": true,
"weight": {"value":3900.0,"unit":"lb"},
"cruise": {"value":160.0,"unit":"kt"},
"mach": null,
"glide": {"value":9.8,"entered":"9.8"},
"crosswind": {"value":18.0,"unit":"kt","entered":"18"},
"arcs": {"white":[57.0,120.0],"green":[65.0,163.0],"yellow":[163.0,203.0],"red-line":[203.0,null],"blue-line":[90.0,null],"red-radial":[62.0,null]},
"tightened": [],
"bench": null,
"speeds": {"VNE":["limits",{"id":"speed-VNE"},{"value":203.0,"unit":"kt","entered":"203","sense":"maximum"}],"VNO":["limits",{"id":"speed-VNO"},{"value":163.0,"unit":"kt","entered":"163","sense":"maximum"}],"VA":["limits",{"id":"speed-VA"},{"value":133.0,"unit":"kt","entered":"133","sense":"maximum"}],"VFE 10":["limits",{"id":"next-of","values":{"name":{"id":"speed-VFE"},"setting":{"id":"flaps","values":{"flaps":"10"}}}},{"value":150.0,"unit":"kt","entered":"150","sense":"maximum"}],"VFE full":["limits",{"id":"next-of","values":{"name":{"id":"speed-VFE"},"setting":{"id":"next-full"}}},{"value":120.0,"unit":"kt","entered":"120","sense":"maximum"}],"VLE":["limits",{"id":"speed-VLE"},{"value":140.0,"unit":"kt","entered":"140","sense":"maximum"}],"VLO gear-down":["limits",{"id":"next-of","values":{"name":{"id":"speed-VLO"},"setting":{"id":"gear-down"}}},{"value":140.0,"unit":"kt","entered":"140","sense":"maximum"}],"VLO gear-up":["limits",{"id":"next-of","values":{"name":{"id":"speed-VLO"},"setting":{"id":"gear-up"}}},{"value":111.0,"unit":"kt","entered":"111","sense":"maximum"}],"VS1 clean":["limits",{"id":"speed-VS1"},{"value":65.0,"unit":"kt","entered":"65","sense":"minimum"}],"VS1 10":["limits",{"id":"next-of","values":{"name":{"id":"speed-VS1"},"setting":{"id":"flaps","values":{"flaps":"10"}}}},{"value":62.0,"unit":"kt","entered":"62","sense":"minimum"}],"VS0":["limits",{"id":"speed-VS0"},{"value":57.0,"unit":"kt","entered":"57","sense":"minimum"}],"VMC":["one-engine",{"id":"speed-VMC"},{"value":62.0,"unit":"kt","entered":"62","sense":"minimum"}],"VSSE":["one-engine",{"id":"speed-VSSE"},{"value":80.0,"unit":"kt","entered":"80","sense":"minimum"}],"VYSE":["one-engine",{"id":"speed-VYSE"},{"value":90.0,"unit":"kt","entered":"90"}],"VXSE":["one-engine",{"id":"speed-VXSE"},{"value":83.0,"unit":"kt","entered":"83"}],"best glide":["flown",{"id":"speed-best-glide"},{"value":93.0,"unit":"kt","entered":"93"}],"VREF":["flown",{"id":"speed-VREF"},{"value":78.0,"unit":"kt","entered":"78","sense":"minimum"}],"VY":["flown",{"id":"speed-VY"},{"value":95.0,"unit":"kt","entered":"95"}],"VX":["flown",{"id":"speed-VX"},{"value":78.0,"unit":"kt","entered":"78"}],"VR":["flown",{"id":"speed-VR"},{"value":73.0,"unit":"kt","entered":"73","sense":"minimum"}]},
"calibration": [{"x":[64.0,75.0,90.0,110.0,130.0,150.0,170.0,190.0,210.0],"y":[68.0,78.0,91.0,110.0,129.0,148.0,168.0,187.0,206.0],"flaps":"0","static_source":"normal","page":"5-10"},{"x":[60.0,75.0,90.0,110.0,130.0,150.0,160.0],"y":[64.0,77.0,91.0,110.0,129.0,148.0,158.0],"flaps":"10","static_source":"normal","page":"5-10"},{"x":[56.0,65.0,75.0,85.0,100.0,115.0,125.0],"y":[60.0,67.0,76.0,86.0,100.0,114.0,123.0],"flaps":"35","static_source":"normal","page":"5-10"},{"x":[70.0,90.0,110.0,130.0,150.0,170.0,190.0],"y":[72.0,88.0,105.0,123.0,142.0,161.0,179.0],"flaps":"0","static_source":"alternate","page":"5-11"}]
};
