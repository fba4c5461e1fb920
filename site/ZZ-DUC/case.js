"use strict";
const AIRCRAFT = {
"registration": "ZZ-DUC",
"type": "Dunlin 160",
"mark": "B72F-C534",
"unit": "kt",
"units": {"speed":"kt","altitude":"ft","temperature":"C","weight":"lb"},
"flaps": ["0","10","35"],
"weights": [2310.0,1700.0,1900.0,2100.0],
"bench": null,
"altimeter_bench": null,
"markings": {"arcs":[{"name":"white","low":36.0,"high":79.0},{"name":"green","low":43.0,"high":119.0},{"name":"yellow","low":119.0,"high":151.0}],"lines":[{"name":"red-line","at":151.0,"speed":"VNE"}],"flaps":[{"flaps":"10","at":99.0}]},
"only_approved": null,
"drawn": {"scale":[20,160],"dial":[28.0,304.0],"ladder":[26.0,632.0],"calibration":[[20.0,160.0,34.0,346.0],[-15.0,10.0,160.0,38.0]],"true-airspeed":[[40.0,160.0,46.0,346.0],[0.0,12000.0,182.0,22.0]]},
"bounds": [
{"speed":"VNE","sense":"maximum","quantity":"ias","value":151.0,"cas":147.0},
{"speed":"VNO","sense":"maximum","quantity":"ias","value":119.0,"cas":116.0},
{"speed":"VA","sense":"maximum","quantity":"ias","value":96.0,"cas":94.0,"weight":2310.0},
{"speed":"VA","sense":"maximum","quantity":"ias","value":87.0,"cas":85.0,"weight":1900.0},
{"speed":"VFE","sense":"maximum","quantity":"ias","value":99.0,"cas":96.0,"flaps":"10"},
{"speed":"VFE","sense":"maximum","quantity":"ias","value":79.0,"cas":78.0,"flaps":"35"},
{"speed":"VS1","sense":"minimum","quantity":"ias","value":43.0,"cas":49.0,"flaps":"0"},
{"speed":"VS1","sense":"minimum","quantity":"ias","value":40.0,"cas":47.0,"flaps":"10"},
{"speed":"VS0","sense":"minimum","quantity":"ias","value":36.0,"cas":44.0},
{"speed":"best glide","sense":"target","quantity":"ias","value":69.0,"cas":69.0,"flaps":"0","weight":2310.0},
{"speed":"best glide","sense":"target","quantity":"ias","value":62.0,"cas":63.0,"flaps":"0","weight":1900.0},
{"speed":"VREF","sense":"minimum","quantity":"ias","value":57.0,"cas":59.0,"flaps":"35"},
{"speed":"VY","sense":"target","quantity":"ias","value":74.0,"cas":74.0,"altitude":0.0},
{"speed":"VY","sense":"target","quantity":"ias","value":68.0,"cas":68.0,"altitude":10000.0},
{"speed":"VX","sense":"target","quantity":"ias","value":58.0,"cas":59.0,"altitude":0.0},
{"speed":"VX","sense":"target","quantity":"ias","value":63.0,"cas":64.0,"altitude":10000.0},
{"speed":"VR","sense":"minimum","quantity":"ias","value":53.0,"cas":55.0,"flaps":"10"},
{"speed":"storm window","sense":"maximum","quantity":"ias","value":105.0},
{"speed":"cruise climb","sense":"target","quantity":"ias","value":80.0,"cas":79.0,"flaps":"0"}
],
"calibration": [
{"x":[43.0,50.0,60.0,70.0,80.0,90.0,100.0,120.0,140.0,155.0],"y":[49.0,53.0,61.0,70.0,79.0,88.0,98.0,117.0,136.0,151.0],"flaps":"0","static_source":"normal","page":"5-7"},
{"x":[40.0,50.0,60.0,70.0,80.0,90.0,100.0],"y":[47.0,53.0,61.0,70.0,79.0,88.0,97.0],"flaps":"10","static_source":"normal","page":"5-7"},
{"x":[36.0,45.0,55.0,65.0,75.0,80.0],"y":[44.0,50.0,57.0,65.0,74.0,79.0],"flaps":"35","static_source":"normal","page":"5-7"},
{"x":[45.0,50.0,60.0,70.0,80.0,90.0,100.0,120.0,140.0],"y":[48.0,51.0,58.0,66.0,75.0,84.0,93.0,111.0,129.0],"flaps":"0","static_source":"alternate","page":"5-8"}
],
"stall": [
{"speed":"VS","sense":"minimum","quantity":"ias","value":43.0,"cas":49.0,"flaps":"0","weight":2310.0},
{"speed":"VS","sense":"minimum","quantity":"ias","value":40.0,"cas":47.0,"flaps":"10","weight":2310.0},
{"speed":"VS","sense":"minimum","quantity":"ias","value":36.0,"cas":44.0,"flaps":"35","weight":2310.0}
],
"altimeter": []
};
