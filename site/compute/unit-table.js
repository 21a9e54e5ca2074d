// @ts-check
/*
 * The table of units, written from the compiler's own in src/quantity/unit by a test: change it there.
 *
 * A unit is a line, for it lies on disk as it stands: symbol, name in full, kind if it is not the line's before,
 * size in the SI unit of its kind, zero of its scale likewise if it has one, symbol of the unit wanted beside it,
 * other spellings in the normal form. An ambiguous spelling: how to write each thing that could be meant, and what
 * that is.
 */
(() => {
  "use strict";

  /** @type {BaybookCompute} */
  const compute = (globalThis.baybookCompute ??= /** @type {any} */ ({}));
  compute.unitTable = {
    kinds: {
      "ac-voltage": "alternating voltage",
      "cold-cranking-current": "cold-cranking current",
      "percent": "percentage",
    },
    ambiguous: [
      [["lb","lbs","Lb","Lbs","LB","LBS","pound","pounds","#"],[["lbf","pounds-force"],["lbm","pounds of mass"],["lbf·ft","pound-feet, a torque"]]],
      [["lb·m"],[["lbm","pounds of mass"],["lbf·ft","pound-feet, a torque"]]],
      [["oz","OZ","ozs","ounce","ounces"],[["ozm","ounces of mass"],["US fl oz","US fluid ounces, a volume"],["Imp fl oz","Imperial fluid ounces, a volume"]]],
      [["fl·oz","floz","fluid·ounce","fluid·ounces"],[["US fl oz","US fluid ounces"],["Imp fl oz","Imperial fluid ounces"]]],
      [["gal","gals","gallon","gallons"],[["US gal","US gallons"],["Imp gal","Imperial gallons"]]],
      [["gpm","GPM","gal/min"],[["US gal/min","US gallons per minute"],["Imp gal/min","Imperial gallons per minute"]]],
      [["qt","qts","quart","quarts"],[["US qt","US quarts"],["Imp qt","Imperial quarts"]]],
      [["pt","pts","pint","pints"],[["US pt","US pints"],["Imp pt","Imperial pints"]]],
      [["deg","degs","degree","degrees"],[["°","degrees of angle"],["°C","degrees Celsius"],["°F","degrees Fahrenheit"]]],
      [["F"],[["°F","degrees Fahrenheit, a temperature"],["µF","farads, a capacitance, written in microfarads"]]],
      [["C"],[["°C","degrees Celsius, a temperature"],["A·h","coulombs, a charge, written in ampere hours"]]],
      [["T"],[["t","tonnes, a mass"],["teeth","teeth of a gear or sprocket"]]],
      [["k"],[["kΩ","kilohms"],["kg","kilograms"],["K","kelvins of difference"]]],
      [["mil","mils"],[["thou","thousandths of an inch"],["mm","millimetres"]]],
      [["cranking·amps","cranking·amperes"],[["A CCA","cold-cranking amperes"],["A CA","cranking amperes"],["A MCA","marine cranking amperes"]]],
    ],
    units: `mm|millimetres|length|1/1000||in|millimetre|millimeters|millimeter
in|inches||127/5000||mm|inch|"
thou|thousandths of an inch||127/5000000||mm|thous
µm|micrometres||1/1000000||thou|um|micron|microns|micrometre|micrometers|micrometer
cm|centimetres||1/100||in|centimetre|centimeters|centimeter
m|metres||1||ft|metre|meters|meter
km|kilometres||1000||mi|kilometre|kilometers|kilometer
mi|miles||201168/125||km|mile
ft|feet||381/1250||m|foot
mm²|square millimetres|area|1/1000000||in²|sq·mm
cm²|square centimetres||1/10000||in²|sq·cm
in²|square inches||16129/25000000||cm²|sq·in
m²|square metres||1|||sq·m
L|litres|volume|1/1000||US qt|l|ℓ|litre|liters|liter|lit|ltr
mL|millilitres||1/1000000||US fl oz|ml|mℓ|millilitre|milliliters|milliliter
cm³|cubic centimetres||1/1000000||in³|cc|ccm|c·c|cu·cm|cubic·centimetre|cubic·centimeters|cubic·centimeter
US qt|US quarts||473176473/500000000000||L|U·S·qt|qt·US|US·quart
US fl oz|US fluid ounces||473176473/16000000000000||mL|US·floz|U·S·fl·oz|fl·oz·US|US·fluid·ounce|US·oz
US pt|US pints||473176473/1000000000000||L|U·S·pt|pt·US|US·pint
US gal|US gallons||473176473/125000000000||L|U·S·gal|gal·US|US·gallon|US·gals
Imp qt|Imperial quarts||454609/400000000||L|imp·qt|qt·Imp|Imp·quart|UK·qt|Imperial·quart
Imp fl oz|Imperial fluid ounces||454609/16000000000||mL|imp·fl·oz|Imp·floz|fl·oz·Imp|UK·fl·oz|Imp·oz|Imperial·fluid·ounce
Imp pt|Imperial pints||454609/800000000||L|imp·pt|pt·Imp|Imp·pint|UK·pt|Imperial·pint
Imp gal|Imperial gallons||454609/100000000||L|imp·gal|gal·Imp|Imp·gallon|UK·gal|Imperial·gallon
in³|cubic inches||2048383/125000000000||cm³|cu·in|cu·ins|ci|cid|cubic·inch
m³|cubic metres||1|||cu·m|cubic·metre|cubic·meters|cubic·meter
g|grams|mass|1/1000||ozm|gram|grammes|gramme
kg|kilograms||1||lbm|kgs|Kg|kilogram|kilo|kilos
lbm|pounds of mass||45359237/100000000||kg|lb·mass|lbs·mass|lb·(mass)|pound·mass|pounds·mass
ozm|ounces of mass||45359237/1600000000||g|oz·mass|oz·(mass)|ounce·mass|ounces·mass
mg|milligrams||1/1000000|||milligram
t|tonnes||1000||lbm|tonne
N|newtons|force|1||lbf|newton
kgf|kilograms-force||196133/20000||N|kg·force|kilogram·force|kilograms·force|kp
lbf|pounds-force||8896443230521/2000000000000||N|lb·force|lbs·force|lb·(force)|pound·force|pounds·force
kN|kilonewtons||1000||lbf|kilonewton
N·m|newton metres|torque|1||lbf·ft|Nm|NM|newton·metre|newton·meter|newton·meters|m·N
lbf·ft|pound-feet||3389544870828501/2500000000000000||N·m|ft·lbf|lb·ft|ft·lb|lbs·ft|ft·lbs|lbfft|ftlbf|lbft|ftlb|ftlbs|pound·foot|pounds·feet|foot·pound|foot·pounds|pound·force·feet|pound·force·foot
lbf·in|pound-inches||1129848290276167/10000000000000000||N·m|in·lbf|lb·in|in·lb|lbs·in|in·lbs|lbfin|inlbf|lbin|inlb|inlbs|pound·inch|pounds·inches|inch·pound|inch·pounds|inch·lb|inch·lbs|pound·force·inches|pound·force·inch
kgf·m|kilogram-force metres||196133/20000||N·m|m·kgf|kg·m|m·kg|kgfm|kgm|mkg|mkgf
kgf·cm|kilogram-force centimetres||196133/2000000||N·m|cm·kgf|kg·cm|cm·kg|kgfcm|kgcm
N·cm|newton centimetres||1/100||lbf·in|Ncm
kPa|kilopascals|pressure|1000||psi|kpa|KPa|KPA|kPag|kPa·g|kPa·gauge|kPa·(gauge)|kilopascal
psi|pounds per square inch||8896443230521/1290320000||kPa|PSI|Psi|psig|psi·gauge|psi·(gauge)|p·s·i|lbf/in²|lb/in²|lbs/in²|lbf/sq·in|lb/sq·in
bar|bar||100000||psi|Bar|BAR|bars|barg|bar·g|bar·gauge|bar·(gauge)
kgf/cm²|kilograms-force per square centimetre||196133/2||kPa|kg/cm²|kgf/sq·cm|kg/sq·cm
MPa|megapascals||1000000||psi|Mpa|MPa·gauge|MPa·(gauge)|megapascal
mmHg|millimetres of mercury||26664477483/200000000||kPa|mm·Hg|mmhg
inHg|inches of mercury||3386388640341/1000000000||kPa|in·Hg|inhg|"Hg|"·Hg
cmHg|centimetres of mercury||26664477483/20000000||inHg|cm·Hg
inH2O|inches of water||24908891/100000||kPa|in·H2O|inH₂O|in·H₂O|in·WC|inWC|in·wc
mmH2O|millimetres of water||196133/20000||kPa|mm·H2O|mmH₂O|mmAq
mbar|millibar||100||psi|millibars
hPa|hectopascals||100||psi|hectopascal
Pa|pascals||1||inH2O|pascal
kPa abs|kilopascals absolute|absolute-pressure|1000||psi abs|kPa·(abs)|kPa·absolute|kPa·(absolute)|kPaa|kPa·a|kPa·(a)|kPa(abs)|kPa(a)
psi abs|pounds per square inch absolute||8896443230521/1290320000||kPa abs|psia|PSIA|psi·(abs)|psi·absolute|psi·(absolute)|psi·a|psi(abs)
bar abs|bar absolute||100000||psi abs|bara|bar·a|bar·(abs)|bar·absolute|bar·(absolute)|bar(abs)|bar(a)
hPa abs|hectopascals absolute||100||inHg abs|hPa·(abs)|hPa·absolute|hPa(abs)
mbar abs|millibar absolute||100||inHg abs|mbar·(abs)|mbar·absolute|mbara|mbar(abs)
mmHg abs|millimetres of mercury absolute||26664477483/200000000||kPa abs|mmHg·(abs)|mmHg·absolute|mm·Hg·abs|mmHg(abs)
inHg abs|inches of mercury absolute||3386388640341/1000000000||kPa abs|inHg·(abs)|inHg·absolute|in·Hg·abs|inHg(abs)
Pa abs|pascals absolute||1|||Pa·(abs)|Pa·absolute|Pa(abs)
J|joules|energy|1|||joule
mJ|millijoules||1/1000|||millijoule
kJ|kilojoules||1000|||kilojoule
W·h|watt hours||3600|||Wh|watt·hour
kW·h|kilowatt hours||3600000|||kWh|kilowatt·hour
kW|kilowatts|power|1000||hp|KW|Kw|kw|kilowatt
W|watts||1|||watt
hp|horsepower||37284993579113511/50000000000000||kW|HP|Hp|bhp|BHP|horse·power
PS|metric horsepower||588399/800||kW|ps|metric·hp
N/mm|newtons per millimetre|spring-rate|1000||lbf/in|N/millimetre
kgf/mm|kilograms-force per millimetre||196133/20||N/mm|kg/mm
lbf/in|pounds-force per inch||8896443230521/50800000000||N/mm|lb/in|lbs/in|lbf/inch|lb/inch|lbs/inch
N/m|newtons per metre||1||lbf/in|N/metre
s|seconds|time|1|||sec|secs|second
min|minutes||60|||mins|minute
h|hours||3600|||hr|hrs|hour
ms|milliseconds||1/1000|||msec|millisecond
µs|microseconds||1/1000000|||us|microsecond
months|months|calendar-time|487/16|||month|mo|mos
years|years||1461/4|||year|yr|yrs
weeks|weeks||7|||week|wk|wks
days|days||1|||day|d
°|degrees of angle|angle|1|||deg·of·angle|degree·of·angle
turns|turns|turns|1|||turn
rpm|revolutions per minute|rotational-speed|1|||RPM|Rpm|r·p·m|r/min|rev/min|revs/min|min⁻¹|min·1|min^·1|/min|U/min
Hz|hertz|frequency|1|||hz|HZ
kHz|kilohertz||1000|||khz|KHz
km/h|kilometres per hour|speed|5/18||mph|kph|kmh|km/hr|km·h⁻¹
mph|miles per hour||1397/3125||km/h|MPH|mi/h|mi/hr|miles/h
m/s|metres per second||1||mph|m/sec
mL/min|millilitres per minute|flow|1/60000000|||ml/min|millilitres/min
L/min|litres per minute||1/60000||US gal/min|l/min|lpm|LPM|litres/min|liters/min
cm³/min|cubic centimetres per minute||1/60000000|||cc/min|ccm/min
L/h|litres per hour||1/3600000||US gal/h|l/h|L/hr|l/hr
US gal/min|US gallons per minute||157725491/2500000000000||L/min|US·gpm|U·S·gal/min
US gal/h|US gallons per hour||157725491/150000000000000||L/h|US·gph|U·S·gal/h
Imp gal/min|Imperial gallons per minute||454609/6000000000||L/min|imp·gal/min|UK·gal/min|Imp·gpm
°C|degrees Celsius|temperature|1|5463/20|°F|degC|°·C|deg·C|degree·C|degrees·C|degree·Celsius|Celsius|celsius
°F|degrees Fahrenheit||5/9|45967/180|°C|degF|°·F|deg·F|degree·F|degrees·F|degree·Fahrenheit|Fahrenheit|fahrenheit
K|kelvins of difference|temperature-difference|1||Δ°F|kelvin|kelvins|Δ°C|°C·difference
Δ°F|degrees Fahrenheit of difference||5/9||K|°F·difference
:1|to one|ratio|1||
%|per cent|percent|1/100|||percent|pct
ppm|parts per million||1/1000000|||PPM|parts/million
SG|specific gravity|specific-gravity|1|||S·G|sg|s·g
teeth|teeth|count|1|||tooth
steps|steps||1|||step
clicks|clicks||1|||click
links|links||1|||link
poles|poles||1|||pole
blinks|blinks||1|||blink
cycles|cycles||1|||cycle
pieces|pieces||1|||piece|pcs|pc
V|volts|voltage|1|||volt|V·DC|VDC|Vdc|V·dc|V=|V·=|V⎓
mV|millivolts||1/1000|||millivolt
kV|kilovolts||1000|||kilovolt
V~|volts alternating|ac-voltage|1|||V·~|V·AC|VAC|Vac|V·ac|V∿|V·rms|Vrms
V peak|volts peak|peak-voltage|1|||Vp|V·pk|Vpk|Vpeak|V·(peak)|volt·peak|peak·volts|peak·V
A|amperes|current|1|||amp|amps|ampere|Amp|Amps
mA|milliamperes||1/1000|||milliampere|milliamp|milliamps
µA|microamperes||1/1000000|||uA|microampere|microamp|microamps
A CCA|amperes cold-cranking|cold-cranking-current|1|||CCA|cca|A·(CCA)|amps·CCA|CCA·A
A CA|amperes cranking|cranking-current|1|||CA|A·(CA)|amps·CA
A MCA|amperes marine cranking|marine-cranking-current|1|||MCA|mca|A·(MCA)|amps·MCA
Ω|ohms|resistance|1|||ohm|Ohm|Ohms|OHM|OHMS
kΩ|kilohms||1000|||KΩ|k·Ω|K·Ω|kohm|kohms|kOhm|kOhms|k·ohm|k·ohms|Kohm|Kohms|K·ohm|K·ohms|kilohm|kilo·ohm|kilo·ohms
MΩ|megohms||1000000|||M·Ω|Mohm|Mohms|MOhm|MOhms|M·ohm|M·ohms|megohm
mΩ|milliohms||1/1000|||mohm|mohms|mOhm|milliohm
µF|microfarads|capacitance|1/1000000|||uF|mfd|microfarad
nF|nanofarads||1/1000000000|||nanofarad
A·h|ampere hours|charge|3600|||Ah|AH|ampere·hour|amp·hours|amp·hour
mA·h|milliampere hours||18/5|||mAh|milliampere·hour|milliamp·hours`,
  };
})();
