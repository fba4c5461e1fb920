"use strict";
TRAITS["ZZ-DUA"] = {
"registration": "ZZ-DUA",
"type": "Dunlin 160",
"kind": "single-engine",
"unit": "mph",
"manual": "kt",
"mark": "AC46-6511",
"remarks": ["Flap lever detent at 10 is worn; confirm the setting by eye."],
"flaps": ["0","10","35"],
"retracts": false,
"weight": {"value":2310.0,"unit":"lb"},
"cruise": {"value":130.038078,"unit":"mph"},
"mach": null,
"glide": {"value":9.1,"entered":"9.1"},
"crosswind": {"value":15.0,"unit":"kt","entered":"15"},
"arcs": {"white":[43.729619,90.911576],"green":[51.785075,136.942754],"yellow":[136.942754,173.767697],"red-line":[173.767697,null]},
"tightened": [],
"bench": null,
"speeds": {"VNE":["limits",{"id":"speed-VNE"},{"value":173.767697,"unit":"mph","sense":"maximum"}],"VNO":["limits",{"id":"speed-VNO"},{"value":136.942754,"unit":"mph","sense":"maximum"}],"VA":["limits",{"id":"speed-VA"},{"value":110.474827,"unit":"mph","sense":"maximum"}],"VFE 10":["limits",{"id":"next-of","values":{"name":{"id":"speed-VFE"},"setting":{"id":"flaps","values":{"flaps":"10"}}}},{"value":113.927165,"unit":"mph","sense":"maximum"}],"VFE full":["limits",{"id":"next-of","values":{"name":{"id":"speed-VFE"},"setting":{"id":"next-full"}}},{"value":90.911576,"unit":"mph","sense":"maximum"}],"storm window":["limits",{"id":"next-own","values":{"name":"storm window"}},{"value":120.831842,"unit":"mph","sense":"maximum"}],"VS1 clean":["limits",{"id":"speed-VS1"},{"value":51.785075,"unit":"mph","sense":"minimum"}],"VS1 10":["limits",{"id":"next-of","values":{"name":{"id":"speed-VS1"},"setting":{"id":"flaps","values":{"flaps":"10"}}}},{"value":47.181957,"unit":"mph","sense":"minimum"}],"VS0":["limits",{"id":"speed-VS0"},{"value":43.729619,"unit":"mph","sense":"minimum"}],"best glide":["flown",{"id":"speed-best-glide"},{"value":79.403782,"unit":"mph"}],"VREF":["flown",{"id":"speed-VREF"},{"value":67.895987,"unit":"mph","sense":"minimum"}],"VY":["flown",{"id":"speed-VY"},{"value":85.157679,"unit":"mph"}],"VX":["flown",{"id":"speed-VX"},{"value":66.745208,"unit":"mph"}],"VR":["flown",{"id":"speed-VR"},{"value":60.991311,"unit":"mph","sense":"minimum"}]},
"calibration": [{"x":[43.0,50.0,60.0,70.0,80.0,90.0,100.0,120.0,140.0,155.0],"y":[49.0,53.0,61.0,70.0,79.0,88.0,98.0,117.0,136.0,151.0],"flaps":"0","static_source":"normal","page":"5-7"},{"x":[40.0,50.0,60.0,70.0,80.0,90.0,100.0],"y":[47.0,53.0,61.0,70.0,79.0,88.0,97.0],"flaps":"10","static_source":"normal","page":"5-7"},{"x":[36.0,45.0,55.0,65.0,75.0,80.0],"y":[44.0,50.0,57.0,65.0,74.0,79.0],"flaps":"35","static_source":"normal","page":"5-7"},{"x":[45.0,50.0,60.0,70.0,80.0,90.0,100.0,120.0,140.0],"y":[48.0,51.0,58.0,66.0,75.0,84.0,93.0,111.0,129.0],"flaps":"0","static_source":"alternate","page":"5-8"}]
};
