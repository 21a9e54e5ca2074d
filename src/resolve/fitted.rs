//! Which machine, year and serial number has which variants of an engine.
//!
//! The years of a fitted engine are cut where a variant begins or ends, and within each piece the
//! serial numbers likewise; every cell that is left has one set of variants.

use std::collections::{BTreeMap, BTreeSet};

use crate::model::{MachineId, Reach, SerialRange, Variant, VariantId, Years};

/// An engine fitted to a machine.
#[derive(Clone, Debug)]
pub struct Fitted {
    /// The machine.
    pub machine: MachineId,
    /// Model years.
    pub years: Years,
    /// Serial numbers, where the years do not decide.
    pub serial: Option<SerialRange>,
}

/// A cell: years and serial numbers that all have the same variants.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Cell {
    /// Model years.
    pub years: Years,
    /// Serial numbers.
    pub serial: SerialRange,
    /// Variants that reach it, those replaced by another of them taken out.
    pub variants: BTreeSet<VariantId>,
}

/// The cells of a fitted engine, in order of year and serial number.
pub fn cells(fitted: &Fitted, variants: &[Variant]) -> Vec<Cell> {
    let reaches: Vec<(&Reach, &VariantId)> = variants
        .iter()
        .flat_map(|variant| variant.reach.iter().map(move |reach| (reach, &variant.id)))
        .filter(|(reach, _)| reach.machine == fitted.machine)
        .collect();
    let mut cells: Vec<Cell> = Vec::new();
    for years in pieces(fitted.years, &reaches) {
        let now: Vec<_> = reaches
            .iter()
            .filter(|(reach, _)| reach.years.is_none_or(|span| span.contains(years.from)))
            .copied()
            .collect();
        for (serial, reached) in serials(fitted.serial.as_ref(), &now) {
            let kept = unreplaced(&reached, variants);
            cells.push(Cell { years, serial, variants: kept });
        }
    }
    joined(cells)
}

/// The years cut where a variant begins or ends.
fn pieces(whole: Years, reaches: &[(&Reach, &VariantId)]) -> Vec<Years> {
    let mut starts = BTreeSet::from([whole.from]);
    for years in reaches.iter().filter_map(|(reach, _)| reach.years) {
        starts.extend(
            [years.from, years.to.saturating_add(1)].into_iter().filter(|year| whole.contains(*year)),
        );
    }
    let starts: Vec<_> = starts.into_iter().collect();
    let ends = starts.iter().skip(1).map(|next| next - 1).chain([whole.to]);
    starts.iter().zip(ends).map(|(from, to)| Years { from: *from, to }).collect()
}

/// The serial numbers cut where a variant begins or ends, each with the variants that reach it.
fn serials(
    fitted: Option<&SerialRange>,
    reaches: &[(&Reach, &VariantId)],
) -> Vec<(SerialRange, BTreeSet<VariantId>)> {
    let always: BTreeSet<_> =
        reaches.iter().filter(|(reach, _)| reach.serial.is_none()).map(|(_, id)| (*id).clone()).collect();
    let mut spans: BTreeMap<&str, Vec<(u32, u32, &VariantId)>> = BTreeMap::new();
    for (reach, id) in reaches {
        if let Some(SerialRange::Span { prefix, from, to }) = &reach.serial {
            spans.entry(prefix).or_default().push((from.unwrap_or(0), to.unwrap_or(u32::MAX), id));
        }
    }
    if let Some(SerialRange::Span { prefix, from, to }) = fitted {
        let ends = (from.unwrap_or(0), to.unwrap_or(u32::MAX));
        let within = spans.remove(prefix.as_str()).unwrap_or_default();
        return numbers(prefix, ends, &within, &always, true);
    }
    if spans.is_empty() {
        return vec![(SerialRange::All, always)];
    }
    let whole = (0, u32::MAX);
    let named = spans.iter().flat_map(|(prefix, within)| numbers(prefix, whole, within, &always, false));
    named.chain([(SerialRange::Rest, always.clone())]).collect()
}

/// The running numbers of one prefix, cut; those that no span reaches only if `all` are wanted.
fn numbers(
    prefix: &str,
    (first, last): (u32, u32),
    spans: &[(u32, u32, &VariantId)],
    always: &BTreeSet<VariantId>,
    all: bool,
) -> Vec<(SerialRange, BTreeSet<VariantId>)> {
    let mut starts = BTreeSet::from([first]);
    for (from, to, _) in spans {
        starts.extend(
            [Some(*from), to.checked_add(1)].into_iter().flatten().filter(|at| (first..=last).contains(at)),
        );
    }
    let starts: Vec<_> = starts.into_iter().collect();
    let ends = starts.iter().skip(1).map(|next| next - 1).chain([last]);
    let mut cells = Vec::new();
    for (from, to) in starts.iter().copied().zip(ends) {
        let reached: Vec<_> = spans.iter().filter(|(low, high, _)| *low <= from && to <= *high).collect();
        if reached.is_empty() && !all {
            continue;
        }
        let set = always.iter().cloned().chain(reached.iter().map(|(_, _, id)| (*id).clone())).collect();
        let range = SerialRange::Span {
            prefix: prefix.to_owned(),
            from: (from != 0).then_some(from),
            to: (to != u32::MAX).then_some(to),
        };
        cells.push((range, set));
    }
    cells
}

/// The variants of a set that none of the others replaces.
fn unreplaced(set: &BTreeSet<VariantId>, variants: &[Variant]) -> BTreeSet<VariantId> {
    let present = variants.iter().filter(|one| set.contains(&one.id));
    let gone: BTreeSet<_> =
        present.flat_map(|one| one.replaces.iter().filter(|other| **other != one.id)).collect();
    set.iter().filter(|id| !gone.contains(id)).cloned().collect()
}

/// Runs of years that have the same cells, joined.
fn joined(cells: Vec<Cell>) -> Vec<Cell> {
    let mut by_years: Vec<(Years, Vec<Cell>)> = Vec::new();
    for cell in cells {
        match by_years.last_mut() {
            Some((years, all)) if *years == cell.years => all.push(cell),
            _ => by_years.push((cell.years, vec![cell])),
        }
    }
    let mut runs: Vec<(Years, Vec<Cell>)> = Vec::new();
    for (years, all) in by_years {
        let same = |other: &[Cell]| {
            other.len() == all.len()
                && other.iter().zip(&all).all(|(a, b)| a.serial == b.serial && a.variants == b.variants)
        };
        match runs.last_mut() {
            Some((run, first)) if same(first) => run.to = years.to,
            _ => runs.push((years, all)),
        }
    }
    let cells =
        runs.into_iter().flat_map(|(years, all)| all.into_iter().map(move |cell| Cell { years, ..cell }));
    cells.collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::source::{Sources, Span};

    fn span() -> Span {
        Span::new(Sources::default().add(String::new(), String::new()), 0..0)
    }

    fn serial(prefix: &str, from: u32, to: u32) -> SerialRange {
        SerialRange::Span { prefix: prefix.into(), from: Some(from), to: Some(to) }
    }

    fn variant(
        id: &str,
        years: Option<(u16, u16)>,
        serial: Option<SerialRange>,
        replaces: &[&str],
    ) -> Variant {
        let years = years.map(|(from, to)| Years { from, to });
        let machine = MachineId::new("m");
        Variant {
            id: VariantId::new(id),
            span: span(),
            source: None,
            reach: vec![Reach { span: span(), machine, years, serial }],
            replaces: replaces.iter().map(|one| VariantId::new(*one)).collect(),
            note: None,
            statements: Vec::new(),
        }
    }

    fn shown(fitted: &Fitted, variants: &[Variant]) -> Vec<String> {
        let ids = |cell: &Cell| cell.variants.iter().map(VariantId::as_str).collect::<Vec<_>>().join("+");
        cells(fitted, variants)
            .iter()
            .map(|cell| format!("{} {}: {}", cell.years, cell.serial, ids(cell)))
            .collect()
    }

    fn fitted(serial: Option<SerialRange>) -> Fitted {
        Fitted { machine: MachineId::new("m"), years: Years { from: 2020, to: 2024 }, serial }
    }

    #[test]
    fn no_variant_is_one_cell() {
        assert_eq!(shown(&fitted(None), &[]), ["2020–2024 every serial number: "]);
    }

    #[test]
    fn a_bulletin_cuts_years_and_serials() {
        let all = [variant("a", Some((2022, 2023)), Some(serial("T-", 400, 1999)), &[])];
        assert_eq!(
            shown(&fitted(None), &all),
            [
                "2020–2021 every serial number: ",
                "2022–2023 T-400 to T-1999: a",
                "2022–2023 any other serial number: ",
                "2024 every serial number: ",
            ]
        );
    }

    #[test]
    fn overlapping_bulletins_make_three_cells_and_a_replaced_one_drops_out() {
        let one = variant("a", None, Some(serial("T-", 1, 10)), &[]);
        let two = variant("b", None, Some(serial("T-", 5, 20)), &[]);
        assert_eq!(
            shown(&fitted(Some(serial("T-", 1, 30))), &[one, two]),
            [
                "2020–2024 T-1 to T-4: a",
                "2020–2024 T-5 to T-10: a+b",
                "2020–2024 T-11 to T-20: b",
                "2020–2024 T-21 to T-30: ",
            ]
        );
        let one = variant("a", None, None, &[]);
        let two = variant("b", Some((2023, 2024)), None, &["a"]);
        assert_eq!(
            shown(&fitted(None), &[one, two]),
            ["2020–2022 every serial number: a", "2023–2024 every serial number: b"]
        );
    }
}
