"use strict";
TRAITS["ZZ-WHA"] = {
"registration": "ZZ-WHA",
"type": "Whimbrel 200R",
"kind": "single-engine",
"unit": "kt",
"manual": "kt",
"mark": "9825-5D04",
"remarks": [],
"flaps": ["0","10","20","40"],
"retracts": true,
"weight": {"value":2750.0,"unit":"lb"},
"cruise": {"value":147.0,"unit":"kt"},
"mach": null,
"glide": {"value":10.4,"entered":"10.4"},
"crosswind": {"value":17.0,"unit":"kt","entered":"17"},
"arcs": {"white":[47.0,104.0],"green":[52.0,147.0],"yellow":[147.0,182.0],"red-line":[182.0,null]},
"tightened": [],
"bench": null,
"speeds": {"VNE":["limits",{"id":"speed-VNE"},{"value":182.0,"unit":"kt","entered":"182","sense":"maximum"}],"VNO":["limits",{"id":"speed-VNO"},{"value":147.0,"unit":"kt","entered":"147","sense":"maximum"}],"VA":["limits",{"id":"speed-VA"},{"value":118.0,"unit":"kt","entered":"118","sense":"maximum"}],"VFE 10":["limits",{"id":"next-of","values":{"name":{"id":"speed-VFE"},"setting":{"id":"flaps","values":{"flaps":"10"}}}},{"value":125.0,"unit":"kt","entered":"125","sense":"maximum"}],"VFE 20":["limits",{"id":"next-of","values":{"name":{"id":"speed-VFE"},"setting":{"id":"flaps","values":{"flaps":"20"}}}},{"value":113.0,"unit":"kt","entered":"113","sense":"maximum"}],"VFE full":["limits",{"id":"next-of","values":{"name":{"id":"speed-VFE"},"setting":{"id":"next-full"}}},{"value":104.0,"unit":"kt","entered":"104","sense":"maximum"}],"VLE":["limits",{"id":"speed-VLE"},{"value":130.0,"unit":"kt","entered":"130","sense":"maximum"}],"VLO gear-down":["limits",{"id":"next-of","values":{"name":{"id":"speed-VLO"},"setting":{"id":"gear-down"}}},{"value":130.0,"unit":"kt","entered":"130","sense":"maximum"}],"VLO gear-up":["limits",{"id":"next-of","values":{"name":{"id":"speed-VLO"},"setting":{"id":"gear-up"}}},{"value":107.0,"unit":"kt","entered":"107","sense":"maximum"}],"VS1 clean":["limits",{"id":"speed-VS1"},{"value":52.0,"unit":"kt","entered":"52","sense":"minimum"}],"VS1 10":["limits",{"id":"next-of","values":{"name":{"id":"speed-VS1"},"setting":{"id":"flaps","values":{"flaps":"10"}}}},{"value":50.0,"unit":"kt","entered":"50","sense":"minimum"}],"VS1 20":["limits",{"id":"next-of","values":{"name":{"id":"speed-VS1"},"setting":{"id":"flaps","values":{"flaps":"20"}}}},{"value":49.0,"unit":"kt","entered":"49","sense":"minimum"}],"VS0":["limits",{"id":"speed-VS0"},{"value":47.0,"unit":"kt","entered":"47","sense":"minimum"}],"best glide":["flown",{"id":"speed-best-glide"},{"value":84.0,"unit":"kt","entered":"84"}],"VREF":["flown",{"id":"speed-VREF"},{"value":66.0,"unit":"kt","entered":"66","sense":"minimum"}],"VY":["flown",{"id":"speed-VY"},{"value":94.0,"unit":"kt","entered":"94"}],"VX":["flown",{"id":"speed-VX"},{"value":76.0,"unit":"kt","entered":"76"}],"VR":["flown",{"id":"speed-VR"},{"value":61.0,"unit":"kt","entered":"61","sense":"minimum"}]},
"calibration": [{"x":[52.0,60.0,70.0,80.0,100.0,120.0,140.0,160.0,180.0,190.0],"y":[58.0,64.0,73.0,82.0,101.0,119.0,138.0,158.0,177.0,187.0],"flaps":"0","static_source":"normal","page":"5-8"},{"x":[50.0,60.0,70.0,80.0,100.0,120.0,130.0],"y":[56.0,65.0,73.0,82.0,101.0,119.0,129.0],"flaps":"10","static_source":"normal","page":"5-8"},{"x":[48.0,60.0,70.0,80.0,100.0,115.0,120.0],"y":[53.0,64.0,72.0,81.0,100.0,114.0,119.0],"flaps":"20","static_source":"normal","page":"5-8"},{"x":[45.0,55.0,65.0,75.0,85.0,95.0,105.0],"y":[50.0,59.0,67.0,76.0,85.0,95.0,104.0],"flaps":"40","static_source":"normal","page":"5-8"},{"x":[60.0,70.0,80.0,100.0,120.0,140.0,160.0],"y":[62.0,70.0,78.0,95.0,112.0,130.0,149.0],"flaps":"0","static_source":"alternate","page":"5-9"}]
};
