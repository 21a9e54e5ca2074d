//! Electrical units.

use super::super::row::{Row, unit};
use crate::quantity::Kind::{
    AcVoltage, Capacitance, Charge, ColdCrankingCurrent, CrankingCurrent, Current, MarineCrankingCurrent,
    PeakVoltage, Resistance, Voltage,
};

#[rustfmt::skip] // One unit a paragraph: a table to be read, not code.
pub(super) static ROWS: &[Row] = &[
    unit(Voltage, "V", "volts", 1, 1).ucum("V").unece("VLT")
        .also(&["volt", "V·DC", "VDC", "Vdc", "V·dc", "V=", "V·=", "V⎓"]),
    unit(Voltage, "mV", "millivolts", 1, 1000).ucum("mV").unece("2Z")
        .also(&["millivolt"]),
    unit(Voltage, "kV", "kilovolts", 1000, 1).ucum("kV").unece("KVT")
        .also(&["kilovolt"]),
    unit(AcVoltage, "V~", "volts alternating", 1, 1).ucum("V{ac}").unece("2G")
        .also(&["V·~", "V·AC", "VAC", "Vac", "V·ac", "V∿", "V·rms", "Vrms"]),
    unit(PeakVoltage, "V peak", "volts peak", 1, 1).ucum("V{peak}")
        .also(&["Vp", "V·pk", "Vpk", "Vpeak", "V·(peak)", "volt·peak", "peak·volts", "peak·V"]),
    unit(Current, "A", "amperes", 1, 1).ucum("A").unece("AMP")
        .also(&["amp", "amps", "ampere", "Amp", "Amps"]),
    unit(Current, "mA", "milliamperes", 1, 1000).ucum("mA").unece("4K")
        .also(&["milliampere", "milliamp", "milliamps"]),
    unit(Current, "µA", "microamperes", 1, 1_000_000).ucum("uA").unece("B84")
        .also(&["uA", "microampere", "microamp", "microamps"]),
    unit(ColdCrankingCurrent, "A CCA", "amperes cold-cranking", 1, 1).ucum("A{CCA}")
        .also(&["CCA", "cca", "A·(CCA)", "amps·CCA", "CCA·A"]),
    unit(CrankingCurrent, "A CA", "amperes cranking", 1, 1).ucum("A{CA}")
        .also(&["CA", "A·(CA)", "amps·CA"]),
    unit(MarineCrankingCurrent, "A MCA", "amperes marine cranking", 1, 1).ucum("A{MCA}")
        .also(&["MCA", "mca", "A·(MCA)", "amps·MCA"]),
    unit(Resistance, "Ω", "ohms", 1, 1).ucum("Ohm").unece("OHM")
        .also(&["ohm", "Ohm", "Ohms", "OHM", "OHMS"]),
    unit(Resistance, "kΩ", "kilohms", 1000, 1).ucum("kOhm").unece("B49")
        .also(&["KΩ", "k·Ω", "K·Ω", "kohm", "kohms", "kOhm", "kOhms", "k·ohm", "k·ohms", "Kohm", "Kohms", "K·ohm", "K·ohms", "kilohm", "kilo·ohm", "kilo·ohms"]),
    unit(Resistance, "MΩ", "megohms", 1_000_000, 1).ucum("MOhm").unece("B75")
        .also(&["M·Ω", "Mohm", "Mohms", "MOhm", "MOhms", "M·ohm", "M·ohms", "megohm"]),
    unit(Resistance, "mΩ", "milliohms", 1, 1000).ucum("mOhm").unece("E45")
        .also(&["mohm", "mohms", "mOhm", "milliohm"]),
    unit(Capacitance, "µF", "microfarads", 1, 1_000_000).ucum("uF").unece("4O")
        .also(&["uF", "mfd", "microfarad"]),
    unit(Capacitance, "nF", "nanofarads", 1, 1_000_000_000).ucum("nF").unece("C41")
        .also(&["nanofarad"]),
    unit(Charge, "A·h", "ampere hours", 3600, 1).ucum("A.h").unece("AMH")
        .also(&["Ah", "AH", "ampere·hour", "amp·hours", "amp·hour"]),
    unit(Charge, "mA·h", "milliampere hours", 18, 5).ucum("mA.h").unece("E09")
        .also(&["mAh", "milliampere·hour", "milliamp·hours"]),
];
