"use strict";
const AIRCRAFT = {
"registration": "ZZ-WHB",
"type": "Whimbrel 200R",
"mark": "DAAD-AE8F",
"unit": "kt",
"units": {"speed":"kt","altitude":"ft","temperature":"C","weight":"lb"},
"flaps": ["0","10","20","40"],
"weights": [2750.0,2200.0,2500.0],
"bench": {"x":[45.0,60.0,80.0,100.0,120.0,140.0,160.0,185.0],"y":[44.0,60.0,81.0,101.0,122.0,142.0,163.0,188.0],"page":"bench card"},
"altimeter_bench": null,
"markings": {"arcs":[{"name":"white","low":47.0,"high":104.0},{"name":"green","low":52.0,"high":147.0},{"name":"yellow","low":147.0,"high":182.0}],"lines":[{"name":"red-line","at":182.0,"speed":"VNE"}],"flaps":[{"flaps":"20","at":113.0},{"flaps":"10","at":125.0}],"tightened":[{"name":"tightened","at":102.0,"speed":"VFE"},{"name":"tightened","at":144.0,"speed":"VNO"},{"name":"tightened","at":179.0,"speed":"VNE"},{"name":"tightened","at":123.0,"speed":"VFE"},{"name":"tightened","at":111.0,"speed":"VFE"}]},
"drawn": {"scale":[40,200],"dial":[28.0,304.0],"ladder":[26.0,632.0],"calibration":[[40.0,200.0,34.0,346.0],[-10.0,10.0,160.0,38.0]],"true-airspeed":[[60.0,160.0,46.0,346.0],[0.0,12000.0,182.0,22.0]]},
"bounds": [
{"speed":"VNE","sense":"maximum","quantity":"ias","value":182.0,"cas":179.0},
{"speed":"VNO","sense":"maximum","quantity":"ias","value":147.0,"cas":145.0},
{"speed":"VA","sense":"maximum","quantity":"ias","value":118.0,"cas":117.0,"weight":2750.0},
{"speed":"VA","sense":"maximum","quantity":"ias","value":104.0,"cas":105.0,"weight":2200.0},
{"speed":"VFE","sense":"maximum","quantity":"ias","value":125.0,"cas":124.0,"flaps":"10"},
{"speed":"VFE","sense":"maximum","quantity":"ias","value":113.0,"cas":112.0,"flaps":"20"},
{"speed":"VFE","sense":"maximum","quantity":"ias","value":104.0,"cas":103.0,"flaps":"40"},
{"speed":"VLE","sense":"maximum","quantity":"ias","value":130.0,"cas":128.0},
{"speed":"VLO","sense":"maximum","quantity":"ias","value":130.0,"cas":128.0,"gear":"down"},
{"speed":"VLO","sense":"maximum","quantity":"ias","value":107.0,"cas":107.0,"gear":"up"},
{"speed":"VS1","sense":"minimum","quantity":"ias","value":52.0,"cas":58.0,"flaps":"0"},
{"speed":"VS1","sense":"minimum","quantity":"ias","value":50.0,"cas":56.0,"flaps":"10"},
{"speed":"VS1","sense":"minimum","quantity":"ias","value":49.0,"cas":54.0,"flaps":"20"},
{"speed":"VS0","sense":"minimum","quantity":"ias","value":47.0,"cas":52.0},
{"speed":"best glide","sense":"target","quantity":"ias","value":84.0,"cas":86.0,"flaps":"0","weight":2750.0},
{"speed":"best glide","sense":"target","quantity":"ias","value":75.0,"cas":78.0,"flaps":"0","weight":2200.0},
{"speed":"VREF","sense":"minimum","quantity":"ias","value":66.0,"cas":68.0,"flaps":"40"},
{"speed":"VY","sense":"target","quantity":"ias","value":94.0,"cas":95.0,"altitude":0.0},
{"speed":"VY","sense":"target","quantity":"ias","value":91.0,"cas":92.0,"altitude":5000.0},
{"speed":"VY","sense":"target","quantity":"ias","value":88.0,"cas":90.0,"altitude":10000.0},
{"speed":"VX","sense":"target","quantity":"ias","value":76.0,"cas":78.0,"altitude":0.0},
{"speed":"VX","sense":"target","quantity":"ias","value":78.0,"cas":80.0,"altitude":5000.0},
{"speed":"VX","sense":"target","quantity":"ias","value":80.0,"cas":82.0,"altitude":10000.0},
{"speed":"VR","sense":"minimum","quantity":"ias","value":61.0,"cas":66.0,"flaps":"10"}
],
"calibration": [
{"x":[52.0,60.0,70.0,80.0,100.0,120.0,140.0,160.0,180.0,190.0],"y":[58.0,64.0,73.0,82.0,101.0,119.0,138.0,158.0,177.0,187.0],"flaps":"0","static_source":"normal","page":"5-8"},
{"x":[50.0,60.0,70.0,80.0,100.0,120.0,130.0],"y":[56.0,65.0,73.0,82.0,101.0,119.0,129.0],"flaps":"10","static_source":"normal","page":"5-8"},
{"x":[48.0,60.0,70.0,80.0,100.0,115.0,120.0],"y":[53.0,64.0,72.0,81.0,100.0,114.0,119.0],"flaps":"20","static_source":"normal","page":"5-8"},
{"x":[45.0,55.0,65.0,75.0,85.0,95.0,105.0],"y":[50.0,59.0,67.0,76.0,85.0,95.0,104.0],"flaps":"40","static_source":"normal","page":"5-8"},
{"x":[60.0,70.0,80.0,100.0,120.0,140.0,160.0],"y":[62.0,70.0,78.0,95.0,112.0,130.0,149.0],"flaps":"0","static_source":"alternate","page":"5-9"}
],
"stall": [
{"speed":"VS","sense":"minimum","quantity":"ias","value":52.0,"cas":58.0,"flaps":"0","weight":2750.0},
{"speed":"VS","sense":"minimum","quantity":"ias","value":50.0,"cas":56.0,"flaps":"10","weight":2750.0},
{"speed":"VS","sense":"minimum","quantity":"ias","value":49.0,"cas":54.0,"flaps":"20","weight":2750.0},
{"speed":"VS","sense":"minimum","quantity":"ias","value":47.0,"cas":52.0,"flaps":"40","weight":2750.0}
],
"altimeter": []
};
