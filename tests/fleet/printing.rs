//! Values as a manual prints them, the second unit worked out from the first.

/// A unit, the one a manual prints beside it: how many of it make one, and how many decimals more it needs.
#[derive(Clone, Copy)]
pub struct Units {
    pub own: &'static str,
    pub beside: Option<(&'static str, f64, i32)>,
}

pub const fn alone(own: &'static str) -> Units {
    Units { own, beside: None }
}

/// Exact by definition: 25.4 mm to the inch, 6.894757 kPa to the psi, 1.3558179 N·m to the lbf·ft, 0.946353 L to the
/// US quart.
pub const MM: Units = Units { own: "mm", beside: Some(("in", 1.0 / 25.4, 2)) };
pub const KPA: Units = Units { own: "kPa", beside: Some(("psi", 1.0 / 6.894_757_293_168_361, 1)) };
pub const NM: Units = Units { own: "N·m", beside: Some(("lbf·ft", 1.0 / 1.355_817_948_331_400_4, 0)) };
pub const LITRE: Units = Units { own: "L", beside: Some(("US qt", 1.0 / 0.946_352_946, 0)) };

impl Units {
    /// The printed forms of a value: its numbers, joined by `shape`.
    fn forms(
        self,
        numbers: &[f64],
        decimals: usize,
        dual: bool,
        shape: &dyn Fn(&[String], &str) -> String,
    ) -> Vec<String> {
        let mut all = vec![shape(&texts(numbers, decimals), self.own)];
        if let Some((unit, factor, more)) = self.beside.filter(|_| dual) {
            // What is printed is converted, not what was drawn.
            let printed = texts(numbers, decimals)
                .into_iter()
                .map(|text| text.parse::<f64>().expect("a number") * factor);
            let decimals =
                usize::try_from(i32::try_from(decimals).expect("few") + more).expect("not below none");
            all.push(shape(&texts(&printed.collect::<Vec<_>>(), decimals), unit));
        }
        all
    }

    pub fn setting(self, value: f64, decimals: usize, dual: bool) -> Vec<String> {
        self.forms(&[value], decimals, dual, &|numbers, unit| after(&numbers[0], unit))
    }

    pub fn range(self, least: f64, most: f64, decimals: usize, dual: bool) -> Vec<String> {
        self.forms(&[least, most], decimals, dual, &|numbers, unit| {
            after(&format!("{}..{}", numbers[0], numbers[1]), unit)
        })
    }

    pub fn tolerance(self, nominal: f64, tolerance: f64, decimals: usize, dual: bool) -> Vec<String> {
        self.forms(&[nominal, tolerance], decimals, dual, &|numbers, unit| {
            after(&format!("{} ± {}", numbers[0], numbers[1]), unit)
        })
    }

    pub fn most(self, value: f64, decimals: usize, dual: bool) -> Vec<String> {
        self.forms(&[value], decimals, dual, &|numbers, unit| format!("max {}", after(&numbers[0], unit)))
    }

    pub fn least(self, value: f64, decimals: usize, dual: bool) -> Vec<String> {
        self.forms(&[value], decimals, dual, &|numbers, unit| format!("min {}", after(&numbers[0], unit)))
    }
}

fn after(number: &str, unit: &str) -> String {
    if unit == ":1" || unit == "°" { format!("{number}{unit}") } else { format!("{number} {unit}") }
}

fn texts(numbers: &[f64], decimals: usize) -> Vec<String> {
    numbers.iter().map(|number| format!("{number:.decimals$}")).collect()
}
