//! Units of force, torque, pressure, energy, power and spring rate.

use super::super::row::{Row, unit};
use crate::quantity::Kind::{AbsolutePressure, Energy, Force, Power, Pressure, SpringRate, Torque};

#[rustfmt::skip] // One unit a paragraph: a table to be read, not code.
pub(super) static ROWS: &[Row] = &[
    unit(Force, "N", "newtons", 1, 1).ucum("N").unece("NEW").beside("lbf")
        .also(&["newton"]),
    unit(Force, "kgf", "kilograms-force", 196_133, 20_000).ucum("kgf").unece("B37").beside("N")
        .also(&["kg·force", "kilogram·force", "kilograms·force", "kp"]),
    unit(Force, "lbf", "pounds-force", 8_896_443_230_521, 2_000_000_000_000).ucum("[lbf_av]").unece("C78").beside("N")
        .also(&["lb·force", "lbs·force", "lb·(force)", "pound·force", "pounds·force"]),
    unit(Force, "kN", "kilonewtons", 1000, 1).ucum("kN").unece("B47").beside("lbf")
        .also(&["kilonewton"]),
    unit(Torque, "N·m", "newton metres", 1, 1).ucum("N.m").unece("NU").beside("lbf·ft")
        .also(&["Nm", "NM", "newton·metre", "newton·meter", "newton·meters", "m·N"]),
    unit(Torque, "lbf·ft", "pound-feet", 3_389_544_870_828_501, 2_500_000_000_000_000).ucum("[ft_i].[lbf_av]").unece("M92").beside("N·m")
        .also(&["ft·lbf", "lb·ft", "ft·lb", "lbs·ft", "ft·lbs", "lbfft", "ftlbf", "lbft", "ftlb", "ftlbs", "pound·foot", "pounds·feet", "foot·pound", "foot·pounds", "pound·force·feet", "pound·force·foot"]),
    unit(Torque, "lbf·in", "pound-inches", 1_129_848_290_276_167, 10_000_000_000_000_000).ucum("[in_i].[lbf_av]").unece("F21").beside("N·m")
        .also(&["in·lbf", "lb·in", "in·lb", "lbs·in", "in·lbs", "lbfin", "inlbf", "lbin", "inlb", "inlbs", "pound·inch", "pounds·inches", "inch·pound", "inch·pounds", "inch·lb", "inch·lbs", "pound·force·inches", "pound·force·inch"]),
    unit(Torque, "kgf·m", "kilogram-force metres", 196_133, 20_000).ucum("kgf.m").unece("B38").beside("N·m")
        .also(&["m·kgf", "kg·m", "m·kg", "kgfm", "kgm", "mkg", "mkgf"]),
    unit(Torque, "kgf·cm", "kilogram-force centimetres", 196_133, 2_000_000).ucum("kgf.cm").beside("N·m")
        .also(&["cm·kgf", "kg·cm", "cm·kg", "kgfcm", "kgcm"]),
    unit(Torque, "N·cm", "newton centimetres", 1, 100).ucum("N.cm").unece("F88").beside("lbf·in")
        .also(&["Ncm"]),
    unit(Pressure, "kPa", "kilopascals", 1000, 1).ucum("kPa").unece("KPA").beside("psi")
        .also(&["kpa", "KPa", "KPA", "kPag", "kPa·g", "kPa·gauge", "kPa·(gauge)", "kilopascal"]),
    unit(Pressure, "psi", "pounds per square inch", 8_896_443_230_521, 1_290_320_000).ucum("[psi]").unece("PS").beside("kPa")
        .also(&["PSI", "Psi", "psig", "psi·gauge", "psi·(gauge)", "p·s·i", "lbf/in²", "lb/in²", "lbs/in²", "lbf/sq·in", "lb/sq·in"]),
    unit(Pressure, "bar", "bar", 100_000, 1).ucum("bar").unece("BAR").beside("psi")
        .also(&["Bar", "BAR", "bars", "barg", "bar·g", "bar·gauge", "bar·(gauge)"]),
    unit(Pressure, "kgf/cm²", "kilograms-force per square centimetre", 196_133, 2).ucum("kgf/cm2").unece("E42").beside("kPa")
        .also(&["kg/cm²", "kgf/sq·cm", "kg/sq·cm"]),
    unit(Pressure, "MPa", "megapascals", 1_000_000, 1).ucum("MPa").unece("MPA").beside("psi")
        .also(&["Mpa", "MPa·gauge", "MPa·(gauge)", "megapascal"]),
    unit(Pressure, "mmHg", "millimetres of mercury", 26_664_477_483, 200_000_000).ucum("mm[Hg]").unece("HN").beside("kPa")
        .also(&["mm·Hg", "mmhg"]),
    unit(Pressure, "inHg", "inches of mercury", 3_386_388_640_341, 1_000_000_000).ucum("[in_i'Hg]").unece("F79").beside("kPa")
        .also(&["in·Hg", "inhg", "\"Hg", "\"·Hg"]),
    unit(Pressure, "cmHg", "centimetres of mercury", 26_664_477_483, 20_000_000).ucum("cm[Hg]").unece("J89").beside("inHg")
        .also(&["cm·Hg"]),
    unit(Pressure, "inH2O", "inches of water", 24_908_891, 100_000).ucum("[in_i'H2O]").unece("F78").beside("kPa")
        .also(&["in·H2O", "inH₂O", "in·H₂O", "in·WC", "inWC", "in·wc"]),
    unit(Pressure, "mmH2O", "millimetres of water", 196_133, 20_000).ucum("mm[H2O]").unece("HP").beside("kPa")
        .also(&["mm·H2O", "mmH₂O", "mmAq"]),
    unit(Pressure, "mbar", "millibar", 100, 1).ucum("mbar").unece("MBR").beside("psi")
        .also(&["millibars"]),
    unit(Pressure, "hPa", "hectopascals", 100, 1).ucum("hPa").unece("A97").beside("psi")
        .also(&["hectopascal"]),
    unit(Pressure, "Pa", "pascals", 1, 1).ucum("Pa").unece("PAL").beside("inH2O")
        .also(&["pascal"]),
    unit(AbsolutePressure, "kPa abs", "kilopascals absolute", 1000, 1).ucum("kPa{abs}").beside("psi abs")
        .also(&["kPa·(abs)", "kPa·absolute", "kPa·(absolute)", "kPaa", "kPa·a", "kPa·(a)", "kPa(abs)", "kPa(a)"]),
    unit(AbsolutePressure, "psi abs", "pounds per square inch absolute", 8_896_443_230_521, 1_290_320_000).ucum("[psi]{abs}").unece("80").beside("kPa abs")
        .also(&["psia", "PSIA", "psi·(abs)", "psi·absolute", "psi·(absolute)", "psi·a", "psi(abs)"]),
    unit(AbsolutePressure, "bar abs", "bar absolute", 100_000, 1).ucum("bar{abs}").beside("psi abs")
        .also(&["bara", "bar·a", "bar·(abs)", "bar·absolute", "bar·(absolute)", "bar(abs)", "bar(a)"]),
    unit(AbsolutePressure, "hPa abs", "hectopascals absolute", 100, 1).ucum("hPa{abs}").beside("inHg abs")
        .also(&["hPa·(abs)", "hPa·absolute", "hPa(abs)"]),
    unit(AbsolutePressure, "mbar abs", "millibar absolute", 100, 1).ucum("mbar{abs}").beside("inHg abs")
        .also(&["mbar·(abs)", "mbar·absolute", "mbara", "mbar(abs)"]),
    unit(AbsolutePressure, "mmHg abs", "millimetres of mercury absolute", 26_664_477_483, 200_000_000).ucum("mm[Hg]{abs}").beside("kPa abs")
        .also(&["mmHg·(abs)", "mmHg·absolute", "mm·Hg·abs", "mmHg(abs)"]),
    unit(AbsolutePressure, "inHg abs", "inches of mercury absolute", 3_386_388_640_341, 1_000_000_000).ucum("[in_i'Hg]{abs}").beside("kPa abs")
        .also(&["inHg·(abs)", "inHg·absolute", "in·Hg·abs", "inHg(abs)"]),
    unit(AbsolutePressure, "Pa abs", "pascals absolute", 1, 1).ucum("Pa{abs}")
        .also(&["Pa·(abs)", "Pa·absolute", "Pa(abs)"]),
    unit(Energy, "J", "joules", 1, 1).ucum("J").unece("JOU")
        .also(&["joule"]),
    unit(Energy, "mJ", "millijoules", 1, 1000).ucum("mJ").unece("C15")
        .also(&["millijoule"]),
    unit(Energy, "kJ", "kilojoules", 1000, 1).ucum("kJ").unece("KJO")
        .also(&["kilojoule"]),
    unit(Energy, "W·h", "watt hours", 3600, 1).ucum("W.h").unece("WHR")
        .also(&["Wh", "watt·hour"]),
    unit(Energy, "kW·h", "kilowatt hours", 3_600_000, 1).ucum("kW.h").unece("KWH")
        .also(&["kWh", "kilowatt·hour"]),
    unit(Power, "kW", "kilowatts", 1000, 1).ucum("kW").unece("KWT").beside("hp")
        .also(&["KW", "Kw", "kw", "kilowatt"]),
    unit(Power, "W", "watts", 1, 1).ucum("W").unece("WTT")
        .also(&["watt"]),
    unit(Power, "hp", "horsepower", 37_284_993_579_113_511, 50_000_000_000_000).ucum("[HP]").beside("kW")
        .also(&["HP", "Hp", "bhp", "BHP", "horse·power"]),
    unit(Power, "PS", "metric horsepower", 588_399, 800).ucum("75.kgf.m/s").unece("HJ").beside("kW")
        .also(&["ps", "metric·hp"]),
    unit(SpringRate, "N/mm", "newtons per millimetre", 1000, 1).ucum("N/mm").unece("F47").beside("lbf/in")
        .also(&["N/millimetre"]),
    unit(SpringRate, "kgf/mm", "kilograms-force per millimetre", 196_133, 20).ucum("kgf/mm").beside("N/mm")
        .also(&["kg/mm"]),
    unit(SpringRate, "lbf/in", "pounds-force per inch", 8_896_443_230_521, 50_800_000_000).ucum("[lbf_av]/[in_i]").unece("F48").beside("N/mm")
        .also(&["lb/in", "lbs/in", "lbf/inch", "lb/inch", "lbs/inch"]),
    unit(SpringRate, "N/m", "newtons per metre", 1, 1).ucum("N/m").unece("4P").beside("lbf/in")
        .also(&["N/metre"]),
];
