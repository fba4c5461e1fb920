"use strict";
TRAITS["ZZ-WHB"] = {
"registration": "ZZ-WHB",
"type": "Whimbrel 200R",
"kind": "single-engine",
"unit": "kt",
"manual": "kt",
"mark": "4FAC-5FC9",
"remarks": ["Alternate static valve is stiff; check it moves before flight in cloud."],
"flaps": ["0","10","20","40"],
"retracts": true,
"weight": {"value":2750.0,"unit":"lb"},
"cruise": {"value":147.0,"unit":"kt"},
"mach": null,
"glide": {"value":10.4,"entered":"10.4"},
"crosswind": {"value":17.0,"unit":"kt","entered":"17"},
"arcs": {"white":[47.0,104.0],"green":[52.0,147.0],"yellow":[147.0,182.0],"red-line":[182.0,null]},
"tightened": [{"name":"tightened","at":102.0,"speed":"VFE"},{"name":"tightened","at":144.0,"speed":"VNO"},{"name":"tightened","at":179.0,"speed":"VNE"},{"name":"tightened","at":123.0,"speed":"VFE"},{"name":"tightened","at":111.0,"speed":"VFE"}],
"bench": {"x":[45.0,60.0,80.0,100.0,120.0,140.0,160.0,185.0],"y":[44.0,60.0,81.0,101.0,122.0,142.0,163.0,188.0],"page":"bench card"},
"speeds": {"VNE":["limits",{"id":"speed-VNE"},{"value":179.0,"unit":"kt","sense":"maximum"}],"VNO":["limits",{"id":"speed-VNO"},{"value":144.761905,"unit":"kt","sense":"maximum"}],"VA":["limits",{"id":"speed-VA"},{"value":116.190476,"unit":"kt","sense":"maximum"}],"VFE 10":["limits",{"id":"next-of","values":{"name":{"id":"speed-VFE"},"setting":{"id":"flaps","values":{"flaps":"10"}}}},{"value":123.0,"unit":"kt","sense":"maximum"}],"VFE 20":["limits",{"id":"next-of","values":{"name":{"id":"speed-VFE"},"setting":{"id":"flaps","values":{"flaps":"20"}}}},{"value":111.428571,"unit":"kt","sense":"maximum"}],"VFE full":["limits",{"id":"next-of","values":{"name":{"id":"speed-VFE"},"setting":{"id":"next-full"}}},{"value":102.857143,"unit":"kt","sense":"maximum"}],"VLE":["limits",{"id":"speed-VLE"},{"value":128.0,"unit":"kt","sense":"maximum"}],"VLO gear-down":["limits",{"id":"next-of","values":{"name":{"id":"speed-VLO"},"setting":{"id":"gear-down"}}},{"value":128.0,"unit":"kt","sense":"maximum"}],"VLO gear-up":["limits",{"id":"next-of","values":{"name":{"id":"speed-VLO"},"setting":{"id":"gear-up"}}},{"value":105.714286,"unit":"kt","sense":"maximum"}],"VS1 clean":["limits",{"id":"speed-VS1"},{"value":52.5,"unit":"kt","sense":"minimum"}],"VS1 10":["limits",{"id":"next-of","values":{"name":{"id":"speed-VS1"},"setting":{"id":"flaps","values":{"flaps":"10"}}}},{"value":50.625,"unit":"kt","sense":"minimum"}],"VS1 20":["limits",{"id":"next-of","values":{"name":{"id":"speed-VS1"},"setting":{"id":"flaps","values":{"flaps":"20"}}}},{"value":49.6875,"unit":"kt","sense":"minimum"}],"VS0":["limits",{"id":"speed-VS0"},{"value":47.8125,"unit":"kt","sense":"minimum"}],"best glide":["flown",{"id":"speed-best-glide"},{"value":83.0,"unit":"kt"}],"VREF":["flown",{"id":"speed-VREF"},{"value":65.714286,"unit":"kt","sense":"minimum"}],"VY":["flown",{"id":"speed-VY"},{"value":93.0,"unit":"kt"}],"VX":["flown",{"id":"speed-VX"},{"value":75.238095,"unit":"kt"}],"VR":["flown",{"id":"speed-VR"},{"value":60.952381,"unit":"kt","sense":"minimum"}]},
"calibration": [{"x":[52.0,60.0,70.0,80.0,100.0,120.0,140.0,160.0,180.0,190.0],"y":[58.0,64.0,73.0,82.0,101.0,119.0,138.0,158.0,177.0,187.0],"flaps":"0","static_source":"normal","page":"5-8"},{"x":[50.0,60.0,70.0,80.0,100.0,120.0,130.0],"y":[56.0,65.0,73.0,82.0,101.0,119.0,129.0],"flaps":"10","static_source":"normal","page":"5-8"},{"x":[48.0,60.0,70.0,80.0,100.0,115.0,120.0],"y":[53.0,64.0,72.0,81.0,100.0,114.0,119.0],"flaps":"20","static_source":"normal","page":"5-8"},{"x":[45.0,55.0,65.0,75.0,85.0,95.0,105.0],"y":[50.0,59.0,67.0,76.0,85.0,95.0,104.0],"flaps":"40","static_source":"normal","page":"5-8"},{"x":[60.0,70.0,80.0,100.0,120.0,140.0,160.0],"y":[62.0,70.0,78.0,95.0,112.0,130.0,149.0],"flaps":"0","static_source":"alternate","page":"5-9"}]
};
