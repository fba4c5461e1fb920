"use strict";
const AIRCRAFT = {
"registration": "ZZ-PHN",
"type": "Phalarope 9T",
"mark": "47C5-C947",
"unit": "kt",
"units": {"speed":"kt","altitude":"ft","temperature":"C","weight":"lb"},
"flaps": ["0","15","35"],
"weights": [9200.0,6600.0,7600.0,8400.0],
"bench": null,
"altimeter_bench": null,
"markings": {"arcs":[{"name":"white","low":60.0,"high":133.0},{"name":"green","low":73.0,"high":231.0}],"lines":[{"name":"red-line","at":231.0,"speed":"VMO"}],"flaps":[{"flaps":"15","at":162.0}]},
"only_approved": null,
"drawn": {"scale":[60,240],"dial":[28.0,304.0],"ladder":[26.0,632.0],"calibration":[[50.0,250.0,34.0,346.0],[-8.0,4.0,160.0,38.0]],"true-airspeed":[[100.0,350.0,46.0,346.0],[0.0,30000.0,182.0,22.0]]},
"bounds": [
{"speed":"VMO","sense":"maximum","quantity":"ias","value":231.0,"cas":228.0},
{"speed":"MMO","sense":"maximum","quantity":"mach","value":0.52},
{"speed":"VO","sense":"maximum","quantity":"ias","value":156.0,"cas":155.0,"weight":9200.0},
{"speed":"VO","sense":"maximum","quantity":"ias","value":142.0,"cas":141.0,"weight":7600.0},
{"speed":"VFE","sense":"maximum","quantity":"ias","value":162.0,"cas":160.0,"flaps":"15"},
{"speed":"VFE","sense":"maximum","quantity":"ias","value":133.0,"cas":132.0,"flaps":"35"},
{"speed":"VLE","sense":"maximum","quantity":"ias","value":170.0,"cas":168.0},
{"speed":"VLO","sense":"maximum","quantity":"ias","value":170.0,"cas":168.0},
{"speed":"VS1","sense":"minimum","quantity":"ias","value":73.0,"cas":76.0,"flaps":"0"},
{"speed":"VS1","sense":"minimum","quantity":"ias","value":66.0,"cas":70.0,"flaps":"15"},
{"speed":"VS0","sense":"minimum","quantity":"ias","value":60.0,"cas":64.0},
{"speed":"best glide","sense":"target","quantity":"ias","value":107.0,"cas":108.0,"flaps":"0","weight":9200.0},
{"speed":"best glide","sense":"target","quantity":"ias","value":97.0,"cas":98.0,"flaps":"0","weight":7600.0},
{"speed":"VREF","sense":"minimum","quantity":"cas","value":83.2,"cas":83.2,"flaps":"35"},
{"speed":"VY","sense":"target","quantity":"ias","value":115.0,"cas":115.0},
{"speed":"VX","sense":"target","quantity":"ias","value":99.0,"cas":100.0},
{"speed":"VR","sense":"minimum","quantity":"ias","value":78.0,"cas":80.0,"flaps":"15"}
],
"calibration": [
{"x":[72.0,85.0,100.0,120.0,150.0,180.0,210.0,245.0],"y":[75.0,87.0,101.0,120.0,149.0,178.0,207.0,242.0],"flaps":"0","static_source":"normal","page":"5-12"},
{"x":[66.0,80.0,95.0,115.0,140.0,165.0],"y":[70.0,82.0,96.0,115.0,139.0,163.0],"flaps":"15","static_source":"normal","page":"5-12"},
{"x":[60.0,70.0,85.0,100.0,120.0,140.0],"y":[64.0,72.0,86.0,100.0,119.0,139.0],"flaps":"35","static_source":"normal","page":"5-12"},
{"x":[80.0,100.0,120.0,150.0,180.0,210.0],"y":[80.0,97.0,116.0,144.0,173.0,202.0],"flaps":"0","static_source":"alternate","page":"5-13"}
],
"stall": [
{"speed":"VS","sense":"minimum","quantity":"ias","value":73.0,"cas":76.0,"flaps":"0","weight":9200.0},
{"speed":"VS","sense":"minimum","quantity":"ias","value":66.0,"cas":70.0,"flaps":"15","weight":9200.0},
{"speed":"VS","sense":"minimum","quantity":"ias","value":60.0,"cas":64.0,"flaps":"35","weight":9200.0}
],
"altimeter": []
};
