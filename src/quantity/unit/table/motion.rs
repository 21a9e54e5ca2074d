//! Units of time, angle, rotation, speed, flow, temperature, and of numbers without a dimension.

use super::super::row::{Row, unit};
use crate::quantity::Kind::{
    Angle, CalendarTime, Count, Flow, Frequency, Percent, Ratio, RotationalSpeed, SpecificGravity, Speed,
    Temperature, TemperatureDifference, Time, Turns,
};

#[rustfmt::skip] // One unit a paragraph: a table to be read, not code.
pub(super) static ROWS: &[Row] = &[
    unit(Time, "s", "seconds", 1, 1).ucum("s").unece("SEC")
        .also(&["sec", "secs", "second"]),
    unit(Time, "min", "minutes", 60, 1).ucum("min").unece("MIN")
        .also(&["mins", "minute"]),
    unit(Time, "h", "hours", 3600, 1).ucum("h").unece("HUR")
        .also(&["hr", "hrs", "hour"]),
    unit(Time, "ms", "milliseconds", 1, 1000).ucum("ms").unece("C26")
        .also(&["msec", "millisecond"]),
    unit(Time, "µs", "microseconds", 1, 1_000_000).ucum("us").unece("B98")
        .also(&["us", "microsecond"]),
    unit(CalendarTime, "months", "months", 487, 16).ucum("mo").unece("MON")
        .also(&["month", "mo", "mos"]),
    unit(CalendarTime, "years", "years", 1461, 4).ucum("a").unece("ANN")
        .also(&["year", "yr", "yrs"]),
    unit(CalendarTime, "weeks", "weeks", 7, 1).ucum("wk").unece("WEE")
        .also(&["week", "wk", "wks"]),
    unit(CalendarTime, "days", "days", 1, 1).ucum("d").unece("DAY")
        .also(&["day", "d"]),
    unit(Angle, "°", "degrees of angle", 1, 1).ucum("deg").unece("DD")
        .also(&["deg·of·angle", "degree·of·angle"]),
    unit(Turns, "turns", "turns", 1, 1).ucum("{turn}").unece("M44")
        .also(&["turn"]),
    unit(RotationalSpeed, "rpm", "revolutions per minute", 1, 1).ucum("{rev}/min").unece("RPM")
        .also(&["RPM", "Rpm", "r·p·m", "r/min", "rev/min", "revs/min", "min⁻¹", "min·1", "min^·1", "/min", "U/min"]),
    unit(Frequency, "Hz", "hertz", 1, 1).ucum("Hz").unece("HTZ")
        .also(&["hz", "HZ"]),
    unit(Frequency, "kHz", "kilohertz", 1000, 1).ucum("kHz").unece("KHZ")
        .also(&["khz", "KHz"]),
    unit(Speed, "km/h", "kilometres per hour", 5, 18).ucum("km/h").unece("KMH").beside("mph")
        .also(&["kph", "kmh", "km/hr", "km·h⁻¹"]),
    unit(Speed, "mph", "miles per hour", 1397, 3125).ucum("[mi_i]/h").unece("HM").beside("km/h")
        .also(&["MPH", "mi/h", "mi/hr", "miles/h"]),
    unit(Speed, "m/s", "metres per second", 1, 1).ucum("m/s").unece("MTS").beside("mph")
        .also(&["m/sec"]),
    unit(Flow, "mL/min", "millilitres per minute", 1, 60_000_000).ucum("mL/min").unece("41")
        .also(&["ml/min", "millilitres/min"]),
    unit(Flow, "L/min", "litres per minute", 1, 60_000).ucum("L/min").unece("L2").beside("US gal/min")
        .also(&["l/min", "lpm", "LPM", "litres/min", "liters/min"]),
    unit(Flow, "cm³/min", "cubic centimetres per minute", 1, 60_000_000).ucum("cm3/min").unece("G49")
        .also(&["cc/min", "ccm/min"]),
    unit(Flow, "L/h", "litres per hour", 1, 3_600_000).ucum("L/h").unece("E32").beside("US gal/h")
        .also(&["l/h", "L/hr", "l/hr"]),
    unit(Flow, "US gal/min", "US gallons per minute", 157_725_491, 2_500_000_000_000).ucum("[gal_us]/min").unece("G2").beside("L/min")
        .also(&["US·gpm", "U·S·gal/min"]),
    unit(Flow, "US gal/h", "US gallons per hour", 157_725_491, 150_000_000_000_000).ucum("[gal_us]/h").unece("G50").beside("L/h")
        .also(&["US·gph", "U·S·gal/h"]),
    unit(Flow, "Imp gal/min", "Imperial gallons per minute", 454_609, 6_000_000_000).ucum("[gal_br]/min").unece("G3").beside("L/min")
        .also(&["imp·gal/min", "UK·gal/min", "Imp·gpm"]),
    unit(Temperature, "°C", "degrees Celsius", 1, 1).zero_at(5463, 20).ucum("Cel").unece("CEL").beside("°F")
        .also(&["degC", "°·C", "deg·C", "degree·C", "degrees·C", "degree·Celsius", "Celsius", "celsius"]),
    unit(Temperature, "°F", "degrees Fahrenheit", 5, 9).zero_at(45967, 180).ucum("[degF]").unece("FAH").beside("°C")
        .also(&["degF", "°·F", "deg·F", "degree·F", "degrees·F", "degree·Fahrenheit", "Fahrenheit", "fahrenheit"]),
    unit(TemperatureDifference, "K", "kelvins of difference", 1, 1).ucum("K").unece("KEL").beside("Δ°F")
        .also(&["kelvin", "kelvins", "Δ°C", "°C·difference"]),
    unit(TemperatureDifference, "Δ°F", "degrees Fahrenheit of difference", 5, 9).ucum("[degR]").unece("A48").beside("K")
        .also(&["°F·difference"]),
    unit(Ratio, ":1", "to one", 1, 1).ucum("1").unece("C62"),
    unit(Percent, "%", "per cent", 1, 100).ucum("%").unece("P1")
        .also(&["percent", "pct"]),
    unit(Percent, "ppm", "parts per million", 1, 1_000_000).ucum("[ppm]").unece("59")
        .also(&["PPM", "parts/million"]),
    unit(SpecificGravity, "SG", "specific gravity", 1, 1).ucum("{SG}").unece("C62")
        .also(&["S·G", "sg", "s·g"]),
    unit(Count, "teeth", "teeth", 1, 1).ucum("{tooth}").unece("C62")
        .also(&["tooth"]),
    unit(Count, "steps", "steps", 1, 1).ucum("{step}").unece("C62")
        .also(&["step"]),
    unit(Count, "clicks", "clicks", 1, 1).ucum("{click}").unece("C62")
        .also(&["click"]),
    unit(Count, "links", "links", 1, 1).ucum("{link}").unece("C62")
        .also(&["link"]),
    unit(Count, "poles", "poles", 1, 1).ucum("{pole}").unece("C62")
        .also(&["pole"]),
    unit(Count, "blinks", "blinks", 1, 1).ucum("{blink}").unece("C62")
        .also(&["blink"]),
    unit(Count, "cycles", "cycles", 1, 1).ucum("{cycle}").unece("C62")
        .also(&["cycle"]),
    unit(Count, "pieces", "pieces", 1, 1).ucum("{piece}").unece("H87")
        .also(&["piece", "pcs", "pc"]),
];
