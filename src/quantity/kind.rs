//! The kinds of quantity: what is measured, which a unit alone does not always tell.
//!
//! Invariant: two values of different kinds are never compared or converted, even where their
//! units have the same dimension (torque and energy, gauge and absolute pressure).

use std::fmt;

macro_rules! kinds {
    ($($variant:ident, $name:literal, $title:literal, $si:literal, $explain:literal;)*) => {
        /// What a quantity measures.
        #[derive(Clone, Copy, Debug, Eq, Hash, Ord, PartialEq, PartialOrd)]
        pub enum Kind {
            $(#[doc = $explain] $variant,)*
        }

        impl Kind {
            /// Every kind, in the order of the declaration.
            #[must_use]
            pub const fn all() -> &'static [Self] {
                &[$(Self::$variant),*]
            }

            /// The id used in the spec base, such as `rotational-speed`.
            #[must_use]
            pub const fn name(self) -> &'static str {
                match self { $(Self::$variant => $name,)* }
            }

            /// The name in running text, such as `rotational speed`.
            #[must_use]
            pub const fn title(self) -> &'static str {
                match self { $(Self::$variant => $title,)* }
            }

            /// The unit that [`Unit::to_si`](super::Unit::to_si) leads to. Angles stay in degrees,
            /// speeds of rotation in rpm, calendar times in days.
            #[must_use]
            pub const fn si_symbol(self) -> &'static str {
                match self { $(Self::$variant => $si,)* }
            }

            /// One sentence on what the kind is, and what it must not be mixed up with.
            #[must_use]
            pub const fn explain(self) -> &'static str {
                match self { $(Self::$variant => $explain,)* }
            }
        }
    };
}

kinds! {
    Length, "length", "length", "m", "A length, a gap, a travel or a distance driven.";
    Area, "area", "area", "m²", "An area.";
    Volume, "volume", "volume", "m³", "A volume; US and Imperial measures share names, not sizes.";
    Mass, "mass", "mass", "kg", "A mass; the pull of a spring is a force, not a mass.";
    Force, "force", "force", "N", "A force; a pound-force is not a pound of mass.";
    Torque, "torque", "torque", "N·m", "A turning moment; it shares its dimension with energy, but N·m is not J.";
    Energy, "energy", "energy", "J", "An energy; it shares its dimension with torque, but J is not N·m.";
    Power, "power", "power", "W", "A power; hp is 550 ft·lbf/s, PS is 75 kgf·m/s.";
    Pressure, "pressure", "pressure", "Pa", "A pressure above that of the air around it, as a gauge shows, or a difference of two pressures.";
    AbsolutePressure, "absolute-pressure", "absolute pressure", "Pa", "A pressure above vacuum; it exceeds the gauge pressure by that of the air around it.";
    Temperature, "temperature", "temperature", "K", "A temperature on a scale with an offset; a difference of temperatures is another kind.";
    TemperatureDifference, "temperature-difference", "temperature difference", "K", "A difference of two temperatures; 1 °F of it is 5/9 K, with no offset.";
    Time, "time", "time", "s", "A time as a clock or an hour meter counts it.";
    CalendarTime, "calendar-time", "calendar time", "d", "A time by the calendar; it does not convert into running hours. A year is 365.25 days and a month a twelfth of it, as in UCUM.";
    Angle, "angle", "angle", "°", "An angle of a shaft, a bolt or a wheel; it stays in degrees.";
    Turns, "turns", "turns", "turns", "Turns of a screw, counted from its seat.";
    RotationalSpeed, "rotational-speed", "rotational speed", "rpm", "A speed of rotation; it stays in revolutions per minute.";
    Frequency, "frequency", "frequency", "Hz", "Cycles of an alternating voltage or a signal in a second.";
    Speed, "speed", "speed", "m/s", "A speed over the ground, of a belt or of a track.";
    Voltage, "voltage", "voltage", "V", "A direct voltage.";
    AcVoltage, "ac-voltage", "alternating voltage", "V", "An alternating voltage, as a meter set to V~ shows it; not the peak.";
    PeakVoltage, "peak-voltage", "peak voltage", "V", "The highest voltage of a pulse, measured with a peak adapter; a plain meter reads less.";
    Current, "current", "current", "A", "A current.";
    ColdCrankingCurrent, "cold-cranking-current", "cold-cranking current", "A", "The current a battery gives in the cold-cranking test; no factor leads to CA or MCA.";
    CrankingCurrent, "cranking-current", "cranking current", "A", "The current a battery gives in the cranking test; no factor leads to CCA or MCA.";
    MarineCrankingCurrent, "marine-cranking-current", "marine cranking current", "A", "The current a battery gives in the marine cranking test; no factor leads to CCA or CA.";
    Resistance, "resistance", "resistance", "Ω", "An electrical resistance.";
    Capacitance, "capacitance", "capacitance", "F", "An electrical capacitance.";
    Charge, "charge", "charge", "C", "An electrical charge, such as the capacity of a battery.";
    Flow, "flow", "flow", "m³/s", "A volume in a time.";
    Ratio, "ratio", "ratio", "1", "A ratio to one, such as a compression, gear or fuel-to-oil ratio.";
    Percent, "percent", "percentage", "1", "A part of a whole.";
    SpecificGravity, "specific-gravity", "specific gravity", "1", "The weight of a liquid against that of water, as a hydrometer shows it.";
    Count, "count", "count", "1", "A whole number of things; teeth do not convert into steps.";
    SpringRate, "spring-rate", "spring rate", "N/m", "A force for each length a spring gives.";
}

impl Kind {
    /// The kind of this name.
    #[must_use]
    pub fn parse(name: &str) -> Option<Self> {
        Self::all().iter().copied().find(|kind| kind.name() == name)
    }
}

impl fmt::Display for Kind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}
