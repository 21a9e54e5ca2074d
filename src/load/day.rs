//! A day as people write it, as year, month, day.

/// Months as they are written out or shortened, by their first three letters.
const MONTHS: [&str; 12] =
    ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];

/// The day that was meant, where only one can be: `31.1.2027`, `1/31/2027`, `2027-1-31`, `31 Jan 2027`.
#[must_use]
pub fn day_meant(typed: &str) -> Option<String> {
    let parts: Vec<&str> =
        typed.split(|one: char| !one.is_alphanumeric()).filter(|part| !part.is_empty()).collect();
    let [first, second, third] = parts.as_slice() else { return None };
    let number = |text: &str| text.parse::<u32>().ok();
    let (year, month, day) = match (number(first), number(second), number(third)) {
        (Some(year), Some(month), Some(day)) if first.len() == 4 => (year, month, day),
        // Some write the day first, some the month: only a number above 12 tells.
        (Some(day), Some(month), Some(year)) if day > 12 => (year, month, day),
        (Some(month), Some(day), Some(year)) if day > 12 || day == month => (year, month, day),
        (Some(day), None, Some(year)) => (year, month_of(second)?, day),
        (None, Some(day), Some(year)) => (year, month_of(first)?, day),
        _ => return None,
    };
    let text = format!("{year:04}-{month:02}-{day:02}");
    let is_day = (1900..=9999).contains(&year) && text.parse::<crate::model::Date>().is_ok();
    (is_day && text != typed).then_some(text)
}

fn month_of(word: &str) -> Option<u32> {
    let word = word.to_lowercase();
    let short = word.get(..3)?;
    MONTHS.iter().zip(1..).find_map(|(name, month)| (*name == short).then_some(month))
}

#[cfg(test)]
mod tests {
    use super::day_meant;

    #[test]
    fn a_day_is_led_to_year_month_day_where_only_one_is_meant() {
        for typed in [
            "31.1.2027",
            "31.01.2027",
            "1/31/2027",
            "31/1/2027",
            "2027-1-31",
            "2027/01/31",
            "31 Jan 2027",
            "January 31, 2027",
        ] {
            assert_eq!(day_meant(typed).as_deref(), Some("2027-01-31"), "{typed}");
        }
        for typed in [
            "2/10/2026",
            "2.10.2026",
            "2026",
            "2026-10",
            "30.2.2026",
            "1.2.3",
            "27-01-31",
            "2027-01-31",
            "4-18",
            "",
        ] {
            assert_eq!(day_meant(typed), None, "{typed}");
        }
    }
}
