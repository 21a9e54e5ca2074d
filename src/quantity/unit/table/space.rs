//! Units of length, area, volume and mass.

use super::super::row::{Row, unit};
use crate::quantity::Kind::{Area, Length, Mass, Volume};

#[rustfmt::skip] // One unit a paragraph: a table to be read, not code.
pub(super) static ROWS: &[Row] = &[
    unit(Length, "mm", "millimetres", 1, 1000).ucum("mm").unece("MMT").beside("in")
        .also(&["millimetre", "millimeters", "millimeter"]),
    unit(Length, "in", "inches", 127, 5000).ucum("[in_i]").unece("INH").beside("mm")
        .also(&["inch", "\""]),
    unit(Length, "thou", "thousandths of an inch", 127, 5_000_000).ucum("[mil_i]").unece("77").beside("mm")
        .also(&["thous"]),
    unit(Length, "µm", "micrometres", 1, 1_000_000).ucum("um").unece("4H").beside("thou")
        .also(&["um", "micron", "microns", "micrometre", "micrometers", "micrometer"]),
    unit(Length, "cm", "centimetres", 1, 100).ucum("cm").unece("CMT").beside("in")
        .also(&["centimetre", "centimeters", "centimeter"]),
    unit(Length, "m", "metres", 1, 1).ucum("m").unece("MTR").beside("ft")
        .also(&["metre", "meters", "meter"]),
    unit(Length, "km", "kilometres", 1000, 1).ucum("km").unece("KMT").beside("mi")
        .also(&["kilometre", "kilometers", "kilometer"]),
    unit(Length, "mi", "miles", 201_168, 125).ucum("[mi_i]").unece("SMI").beside("km")
        .also(&["mile"]),
    unit(Length, "ft", "feet", 381, 1250).ucum("[ft_i]").unece("FOT").beside("m")
        .also(&["foot"]),
    unit(Area, "mm²", "square millimetres", 1, 1_000_000).ucum("mm2").unece("MMK").beside("in²")
        .also(&["sq·mm"]),
    unit(Area, "cm²", "square centimetres", 1, 10_000).ucum("cm2").unece("CMK").beside("in²")
        .also(&["sq·cm"]),
    unit(Area, "in²", "square inches", 16129, 25_000_000).ucum("[sin_i]").unece("INK").beside("cm²")
        .also(&["sq·in"]),
    unit(Area, "m²", "square metres", 1, 1).ucum("m2").unece("MTK")
        .also(&["sq·m"]),
    unit(Volume, "L", "litres", 1, 1000).ucum("L").unece("LTR").beside("US qt")
        .also(&["l", "ℓ", "litre", "liters", "liter", "lit", "ltr"]),
    unit(Volume, "mL", "millilitres", 1, 1_000_000).ucum("mL").unece("MLT").beside("US fl oz")
        .also(&["ml", "mℓ", "millilitre", "milliliters", "milliliter"]),
    unit(Volume, "cm³", "cubic centimetres", 1, 1_000_000).ucum("cm3").unece("CMQ").beside("in³")
        .also(&["cc", "ccm", "c·c", "cu·cm", "cubic·centimetre", "cubic·centimeters", "cubic·centimeter"]),
    unit(Volume, "US qt", "US quarts", 473_176_473, 500_000_000_000).ucum("[qt_us]").unece("QTL").beside("L")
        .also(&["U·S·qt", "qt·US", "US·quart"]),
    unit(Volume, "US fl oz", "US fluid ounces", 473_176_473, 16_000_000_000_000).ucum("[foz_us]").unece("OZA").beside("mL")
        .also(&["US·floz", "U·S·fl·oz", "fl·oz·US", "US·fluid·ounce", "US·oz"]),
    unit(Volume, "US pt", "US pints", 473_176_473, 1_000_000_000_000).ucum("[pt_us]").unece("PTL").beside("L")
        .also(&["U·S·pt", "pt·US", "US·pint"]),
    unit(Volume, "US gal", "US gallons", 473_176_473, 125_000_000_000).ucum("[gal_us]").unece("GLL").beside("L")
        .also(&["U·S·gal", "gal·US", "US·gallon", "US·gals"]),
    unit(Volume, "Imp qt", "Imperial quarts", 454_609, 400_000_000).ucum("[qt_br]").unece("QTI").beside("L")
        .also(&["imp·qt", "qt·Imp", "Imp·quart", "UK·qt", "Imperial·quart"]),
    unit(Volume, "Imp fl oz", "Imperial fluid ounces", 454_609, 16_000_000_000).ucum("[foz_br]").unece("OZI").beside("mL")
        .also(&["imp·fl·oz", "Imp·floz", "fl·oz·Imp", "UK·fl·oz", "Imp·oz", "Imperial·fluid·ounce"]),
    unit(Volume, "Imp pt", "Imperial pints", 454_609, 800_000_000).ucum("[pt_br]").unece("PTI").beside("L")
        .also(&["imp·pt", "pt·Imp", "Imp·pint", "UK·pt", "Imperial·pint"]),
    unit(Volume, "Imp gal", "Imperial gallons", 454_609, 100_000_000).ucum("[gal_br]").unece("GLI").beside("L")
        .also(&["imp·gal", "gal·Imp", "Imp·gallon", "UK·gal", "Imperial·gallon"]),
    unit(Volume, "in³", "cubic inches", 2_048_383, 125_000_000_000).ucum("[cin_i]").unece("INQ").beside("cm³")
        .also(&["cu·in", "cu·ins", "ci", "cid", "cubic·inch"]),
    unit(Volume, "m³", "cubic metres", 1, 1).ucum("m3").unece("MTQ")
        .also(&["cu·m", "cubic·metre", "cubic·meters", "cubic·meter"]),
    unit(Mass, "g", "grams", 1, 1000).ucum("g").unece("GRM").beside("ozm")
        .also(&["gram", "grammes", "gramme"]),
    unit(Mass, "kg", "kilograms", 1, 1).ucum("kg").unece("KGM").beside("lbm")
        .also(&["kgs", "Kg", "kilogram", "kilo", "kilos"]),
    unit(Mass, "lbm", "pounds of mass", 45_359_237, 100_000_000).ucum("[lb_av]").unece("LBR").beside("kg")
        .also(&["lb·mass", "lbs·mass", "lb·(mass)", "pound·mass", "pounds·mass"]),
    unit(Mass, "ozm", "ounces of mass", 45_359_237, 1_600_000_000).ucum("[oz_av]").unece("ONZ").beside("g")
        .also(&["oz·mass", "oz·(mass)", "ounce·mass", "ounces·mass"]),
    unit(Mass, "mg", "milligrams", 1, 1_000_000).ucum("mg").unece("MGM")
        .also(&["milligram"]),
    unit(Mass, "t", "tonnes", 1000, 1).ucum("t").unece("TNE").beside("lbm")
        .also(&["tonne"]),
];
