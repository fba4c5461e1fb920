"use strict";
TRAITS["ZZ-WTR"] = {
"registration": "ZZ-WTR",
"type": "Wheatear 15",
"kind": "glider",
"unit": "km/h",
"manual": "km/h",
"mark": "3E3F-128B",
"remarks": ["Trim friction is light; expect it to creep in turbulence."],
"flaps": ["0"],
"retracts": false,
"weight": {"value":525.0,"unit":"kg"},
"cruise": null,
"mach": null,
"glide": {"value":38.0,"entered":"38"},
"crosswind": {"value":20.0,"unit":"km/h","entered":"20"},
"arcs": {"green":[72.0,179.0],"yellow":[179.0,251.0],"red-line":[251.0,null],"yellow-triangle":[93.0,null]},
"tightened": [],
"bench": null,
"speeds": {"VNE":["limits",{"id":"speed-VNE"},{"value":251.0,"unit":"km/h","entered":"251","sense":"maximum"}],"VRA":["limits",{"id":"speed-VRA"},{"value":179.0,"unit":"km/h","entered":"179","sense":"maximum"}],"VA":["limits",{"id":"speed-VA"},{"value":179.0,"unit":"km/h","entered":"179","sense":"maximum"}],"VW":["limits",{"id":"speed-VW"},{"value":118.0,"unit":"km/h","entered":"118","sense":"maximum"}],"VT":["limits",{"id":"speed-VT"},{"value":150.0,"unit":"km/h","entered":"150","sense":"maximum"}],"airbrakes":["limits",{"id":"next-own","values":{"name":"airbrakes"}},{"value":251.0,"unit":"km/h","entered":"251","sense":"maximum"}],"VS1 clean":["limits",{"id":"speed-VS1"},{"value":65.0,"unit":"km/h","entered":"65","sense":"minimum"}],"best glide":["flown",{"id":"speed-best-glide"},{"value":103.0,"unit":"km/h","entered":"103"}],"approach":["flown",{"id":"speed-approach"},{"value":93.0,"unit":"km/h","entered":"93","sense":"minimum"}],"minimum sink":["flown",{"id":"speed-minimum-sink"},{"value":83.0,"unit":"km/h","entered":"83"}]},
"calibration": [{"x":[64.0,75.0,90.0,110.0,130.0,160.0,190.0,220.0,255.0],"y":[68.0,78.0,92.0,110.0,129.0,158.0,187.0,216.0,251.0],"flaps":"0","static_source":"normal","page":"5-1"}]
};
