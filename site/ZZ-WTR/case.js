"use strict";
const AIRCRAFT = {
"registration": "ZZ-WTR",
"type": "Wheatear 15",
"mark": "3E3F-128B",
"unit": "km/h",
"units": {"speed":"km/h","altitude":"m","temperature":"C","weight":"kg"},
"flaps": ["0"],
"weights": [525.0,350.0,400.0,450.0],
"bench": null,
"altimeter_bench": null,
"markings": {"arcs":[{"name":"green","low":72.0,"high":179.0},{"name":"yellow","low":179.0,"high":251.0}],"lines":[{"name":"red-line","at":251.0,"speed":"VNE"},{"name":"yellow-triangle","at":93.0,"speed":"approach"}]},
"only_approved": null,
"drawn": {"scale":[60,260],"dial":[28.0,304.0],"ladder":[26.0,632.0],"calibration":[[50.0,300.0,34.0,346.0],[-4.0,4.0,160.0,23.0]],"true-airspeed":[[50.0,300.0,46.0,346.0],[0.0,6000.0,182.0,22.0]]},
"bounds": [
{"speed":"VNE","sense":"maximum","quantity":"ias","value":251.0,"cas":247.0},
{"speed":"VNE","sense":"maximum","quantity":"tas","value":286.0,"from_altitude":3000.0},
{"speed":"VRA","sense":"maximum","quantity":"ias","value":179.0,"cas":176.0},
{"speed":"VA","sense":"maximum","quantity":"ias","value":179.0,"cas":176.0},
{"speed":"VW","sense":"maximum","quantity":"ias","value":118.0,"cas":118.0},
{"speed":"VT","sense":"maximum","quantity":"ias","value":150.0,"cas":148.0},
{"speed":"VS1","sense":"minimum","quantity":"ias","value":65.0,"cas":69.0},
{"speed":"best glide","sense":"target","quantity":"ias","value":103.0,"cas":104.0,"weight":525.0},
{"speed":"best glide","sense":"target","quantity":"ias","value":90.0,"cas":92.0,"weight":400.0},
{"speed":"approach","sense":"minimum","quantity":"ias","value":93.0,"cas":95.0},
{"speed":"minimum sink","sense":"target","quantity":"ias","value":83.0,"cas":85.0},
{"speed":"airbrakes","sense":"maximum","quantity":"ias","value":251.0,"cas":247.0}
],
"calibration": [
{"x":[64.0,75.0,90.0,110.0,130.0,160.0,190.0,220.0,255.0],"y":[68.0,78.0,92.0,110.0,129.0,158.0,187.0,216.0,251.0],"flaps":"0","static_source":"normal","page":"5-1"}
],
"stall": [
{"speed":"VS","sense":"minimum","quantity":"ias","value":65.0,"cas":69.0,"flaps":"0","weight":525.0}
],
"altimeter": []
};
