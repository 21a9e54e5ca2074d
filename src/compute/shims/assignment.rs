//! The cheapest assignment of rows to columns, each column taken once at most (Kuhn 1955, Munkres 1957; the
//! form by shortest augmenting paths, in which a potential on each side keeps every reduced cost from being
//! negative). Costs are whole numbers of any size, so that several aims fit into one.
//!
//! Invariant: after each row is placed, the rows placed so far are placed as cheaply as they can be.

use num_bigint::BigInt;
use num_traits::Zero;

/// What every row would cost in every column; `None` where it may not stand.
pub(super) type Costs = Vec<Vec<Option<BigInt>>>;

/// One column: its potential, who stands in it, and what the search of the moment knows of it.
#[derive(Clone, Debug, Default)]
struct Column {
    potential: BigInt,
    row: Option<usize>,
    least: Option<BigInt>,
    before: Option<usize>,
    seen: bool,
}

/// The column of each row in the cheapest assignment; `None` for a row that fits nowhere.
///
/// Every row must have a column that it shares with no other, so that all can be placed.
pub(super) fn cheapest(costs: &Costs) -> Vec<Option<usize>> {
    let width = costs.iter().map(Vec::len).max().unwrap_or_default();
    let mut search = Search {
        costs,
        barred: barred(costs),
        rows: vec![BigInt::zero(); costs.len()],
        columns: vec![Column::default(); width],
    };
    (0..costs.len()).for_each(|row| search.place(row));
    let mut placed = vec![None; costs.len()];
    for (index, column) in search.columns.iter().enumerate() {
        if let Some(slot) = column.row.and_then(|row| placed.get_mut(row)) {
            *slot = Some(index);
        }
    }
    placed
}

/// More than any assignment costs in which every row stands where it may.
fn barred(costs: &Costs) -> BigInt {
    let dearest = costs.iter().map(|row| row.iter().flatten().max().cloned().unwrap_or_default());
    dearest.sum::<BigInt>() + 1
}

struct Search<'a> {
    costs: &'a Costs,
    barred: BigInt,
    /// The potential of each row.
    rows: Vec<BigInt>,
    columns: Vec<Column>,
}

impl Search<'_> {
    /// Places one more row, and moves others where that is cheaper.
    fn place(&mut self, new: usize) {
        for column in &mut self.columns {
            column.least = None;
            column.before = None;
            column.seen = false;
        }
        let (mut row, mut at) = (new, None);
        while let Some((nearest, step)) = self.reach(row, at) {
            self.rise(new, &step);
            at = Some(nearest);
            let Some(column) = self.columns.get_mut(nearest) else { return };
            column.seen = true;
            match column.row {
                Some(next) => row = next,
                None => break,
            }
        }
        while let Some(index) = at {
            let before = self.columns.get(index).and_then(|column| column.before);
            let mover = match before {
                Some(earlier) => self.columns.get(earlier).and_then(|column| column.row),
                None => Some(new),
            };
            if let Some(column) = self.columns.get_mut(index) {
                column.row = mover;
            }
            at = before;
        }
    }

    /// Looks from `row`, which stands in the column `at`, at every unseen column; gives the nearest of all
    /// and how far it is.
    fn reach(&mut self, row: usize, at: Option<usize>) -> Option<(usize, BigInt)> {
        let costs = self.costs.get(row)?;
        let potential = self.rows.get(row)?;
        let mut nearest: Option<(usize, BigInt)> = None;
        for (index, column) in self.columns.iter_mut().enumerate().filter(|(_, column)| !column.seen) {
            let cost = costs.get(index).and_then(Option::as_ref).unwrap_or(&self.barred);
            let reduced = cost - potential - &column.potential;
            if column.least.as_ref().is_none_or(|least| reduced < *least) {
                column.least = Some(reduced);
                column.before = at;
            }
            if let Some(least) = &column.least
                && nearest.as_ref().is_none_or(|(_, distance)| least < distance)
            {
                nearest = Some((index, least.clone()));
            }
        }
        nearest
    }

    /// Moves the potentials by the way to the nearest column, so that the way there costs nothing.
    fn rise(&mut self, new: usize, step: &BigInt) {
        if let Some(potential) = self.rows.get_mut(new) {
            *potential += step;
        }
        for column in &mut self.columns {
            if column.seen {
                column.potential -= step;
                if let Some(potential) = column.row.and_then(|row| self.rows.get_mut(row)) {
                    *potential += step;
                }
            } else if let Some(least) = &mut column.least {
                *least -= step;
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn costs(rows: &[&[i64]]) -> Costs {
        let cost = |cost: &i64| (*cost >= 0).then(|| BigInt::from(*cost));
        rows.iter().map(|row| row.iter().map(cost).collect()).collect()
    }

    fn total(costs: &Costs, placed: &[Option<usize>]) -> Option<BigInt> {
        let one = |(row, column): (&Vec<Option<BigInt>>, &Option<usize>)| row.get((*column)?)?.clone();
        costs.iter().zip(placed).map(one).sum()
    }

    /// The cheapest by trying every way.
    fn tried(costs: &Costs, row: usize, taken: &mut Vec<usize>) -> Option<BigInt> {
        if row == costs.len() {
            return Some(BigInt::zero());
        }
        let mut best: Option<BigInt> = None;
        for column in 0..costs[row].len() {
            let Some(cost) = costs[row][column].clone().filter(|_| !taken.contains(&column)) else {
                continue;
            };
            taken.push(column);
            if let Some(rest) = tried(costs, row + 1, taken) {
                let whole = rest + cost;
                best = Some(best.map_or(whole.clone(), |best| best.min(whole)));
            }
            taken.pop();
        }
        best
    }

    #[test]
    fn the_assignment_is_the_cheapest_of_all() {
        let table = costs(&[&[4, 1, 3], &[2, 0, 5], &[3, 2, 2]]);
        let placed = cheapest(&table);
        assert_eq!(placed, [Some(1), Some(0), Some(2)]);
        let mut state = 88_172_645_463_325_252_u64;
        let mut roll = |sides: u64| {
            state ^= state << 13;
            state ^= state >> 7;
            state ^= state << 17;
            i64::try_from(state % sides).unwrap()
        };
        for _ in 0..400 {
            let rows = usize::try_from(1 + roll(5)).unwrap();
            let extra = usize::try_from(roll(3)).unwrap();
            let table: Vec<Vec<i64>> = (0..rows)
                .map(|row| {
                    (0..rows + extra).map(|column| if column == row { 99 } else { roll(40) - 8 }).collect()
                })
                .collect();
            let table: Vec<&[i64]> = table.iter().map(Vec::as_slice).collect();
            let table = costs(&table);
            assert_eq!(total(&table, &cheapest(&table)), tried(&table, 0, &mut Vec::new()), "{table:?}");
        }
    }
}
