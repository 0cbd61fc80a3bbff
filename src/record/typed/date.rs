//! Days and times of day as people type them: `11/25`, `Nov 25`, `nov25`, `Fri`, `yesterday`, `+3`, `2:30p`, `1430`.
//!
//! Where the units are US a date in figures has the month first, else the day; one that fits only the other order is refused,
//! never turned round. Journals and logger files are not read here: they have one spelling (`parse`).

use super::super::parse;
use crate::units::System;
use chrono::{Datelike, Days, Month, NaiveDate, NaiveTime, Weekday};

/// Which way a field looks: what a weekday by itself means there, and a date without a year before a season is planned.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Facing {
    /// To what was done: the last such day, today among them.
    Back,
    /// To what is to come: the next such day after today.
    Ahead,
}

/// What a typed day is read by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct DayReader {
    /// The day worked on.
    pub today: NaiveDate,
    /// The units of the site, which also say whether the month or the day is typed first.
    pub system: System,
    /// The first and last day the plan speaks of: a date without a year is taken into it, or as near to it as possible.
    pub season: Option<(NaiveDate, NaiveDate)>,
}

/// A run of one kind of characters.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Atom<'t> {
    Word(&'t str),
    Figures(&'t str),
    Between(char),
}

use Atom::{Between, Figures, Word};

impl DayReader {
    /// Reads a day.
    ///
    /// # Errors
    /// What was typed, and examples of what would be right.
    ///
    /// ```
    /// use benchwalk::record::typed::{DayReader, Facing};
    /// use benchwalk::units::System;
    /// let day = |text: &str| text.parse().unwrap();
    /// let (today, season) = (day("2026-10-12"), Some((day("2026-08-17"), day("2026-11-27"))));
    /// let reader = DayReader { today, system: System::Us, season };
    /// assert_eq!(reader.day("11/25", Facing::Ahead), Ok(day("2026-11-25")));
    /// assert_eq!(reader.day("Fri", Facing::Back), Ok(day("2026-10-09")));
    /// assert!(reader.day("25/11", Facing::Ahead).unwrap_err().contains("month first"));
    /// ```
    pub fn day(&self, text: &str, facing: Facing) -> Result<NaiveDate, String> {
        self.find(&text.trim().to_lowercase(), facing).ok_or_else(|| self.wrong(text))
    }

    /// Reads a time of day, a day, or both in either order; without a day it is today's. `None` for the time where only a day
    /// was typed.
    ///
    /// # Errors
    /// What was typed, and examples of what would be right.
    pub fn moment(&self, text: &str, facing: Facing) -> Result<(NaiveDate, Option<NaiveTime>), String> {
        let lower = text.trim().to_lowercase();
        // The spelling of journals has a T between the two.
        let spaced = match lower.split_once('t') {
            Some((day, time)) if parse::day(day).is_some() => format!("{day} {time}"),
            _ => lower,
        };
        let words: Vec<&str> = spaced.split([' ', ',']).filter(|word| !word.is_empty()).collect();
        let part = |from: usize, to: usize| words.get(from..to).unwrap_or_default();
        for at in (0..=words.len()).rev() {
            let (before, after) = (part(0, at), part(at, words.len()));
            let pair = |day: &[&str], time: &[&str]| {
                let day = if day.is_empty() { Some(self.today) } else { self.find(&day.join(" "), facing) };
                let time = if time.is_empty() { Some(None) } else { time_of_day(&time.concat()).map(Some) };
                day.zip(time)
            };
            if words.is_empty() {
                break;
            }
            if let Some(found) = pair(before, after).or_else(|| pair(after, before)) {
                return Ok(found);
            }
        }
        let first = match self.system {
            System::Us => "month first",
            System::Metric => "day first",
        };
        Err(format!("is \"{}\"; give a time, or a day ({first}) and a time: {}", text.trim(), self.moments()))
    }

    /// Examples of days as they are typed.
    pub const fn days(&self, facing: Facing) -> &'static str {
        match (self.system, facing) {
            (System::Us, Facing::Back) => "11/25, Nov 25, Fri, today, -1",
            (System::Us, Facing::Ahead) => "11/25, Nov 25, Fri, +3",
            (System::Metric, Facing::Back) => "25/11, 25 Nov, Fri, today, -1",
            (System::Metric, Facing::Ahead) => "25/11, 25 Nov, Fri, +3",
        }
    }

    /// Examples of times as they are typed.
    pub const fn moments(&self) -> &'static str {
        match self.system {
            System::Us => "2:30p, 14:30, yesterday 2:30p, 11/25 2:30p",
            System::Metric => "14:30, 2:30p, yesterday 14:30, 25/11 14:30",
        }
    }

    fn wrong(&self, text: &str) -> String {
        let examples = match self.system {
            System::Us => "11/25 (month first), Nov 25",
            System::Metric => "25/11 (day first), 25 Nov",
        };
        format!("is \"{}\"; give {examples}, Fri, yesterday, +3, -1 or 2026-11-25", text.trim())
    }

    /// The day of a text in lower case.
    fn find(&self, text: &str, facing: Facing) -> Option<NaiveDate> {
        if let Some(day) = parse::day(text) {
            return Some(day);
        }
        let atoms = atoms(text)?;
        let found = match atoms.as_slice() {
            [Word(word)] => self.named(word, facing),
            [Between(sign @ ('+' | '-')), Figures(n)] => self.away(*sign, n, 1),
            [Between(sign @ ('+' | '-')), Figures(n), Word("d" | "day" | "days")] => self.away(*sign, n, 1),
            [Between(sign @ ('+' | '-')), Figures(n), Word("w" | "wk" | "week" | "weeks")] => self.away(*sign, n, 7),
            // `Wed Nov 25, 2026`: the weekday must be that of the date.
            [Word(word), rest @ ..] if weekday(word).is_some() => {
                self.dated(rest, facing).filter(|day| Some(day.weekday()) == weekday(word))
            }
            all => self.dated(all, facing),
        };
        found.filter(|day| parse::day(&parse::show_day(*day)).is_some())
    }

    /// A day that has a name.
    fn named(&self, word: &str, facing: Facing) -> Option<NaiveDate> {
        let known = [("today", 0), ("yesterday", -1), ("tomorrow", 1)];
        if let Some((_, n)) = known.iter().find(|(name, _)| word.len() >= 3 && name.starts_with(word)) {
            return self.days_on(*n);
        }
        let wanted = weekday(word)?;
        let (today, wanted) = (self.today.weekday().num_days_from_monday(), wanted.num_days_from_monday());
        let (today, wanted) = (i64::from(today), i64::from(wanted));
        match facing {
            Facing::Back => self.days_on((today - wanted).rem_euclid(7).checked_neg()?),
            Facing::Ahead => self.days_on((wanted - today - 1).rem_euclid(7).checked_add(1)?),
        }
    }

    /// So many days, or weeks, on or back.
    fn away(&self, sign: char, figures: &str, each: i64) -> Option<NaiveDate> {
        let days = i64::from(figures.parse::<u16>().ok()?).checked_mul(each)?;
        self.days_on(if sign == '-' { days.checked_neg()? } else { days })
    }

    fn days_on(&self, days: i64) -> Option<NaiveDate> {
        let by = Days::new(days.unsigned_abs());
        if days < 0 { self.today.checked_sub_days(by) } else { self.today.checked_add_days(by) }
    }

    /// A date in figures, or with the name of its month; the year may be left out.
    fn dated(&self, atoms: &[Atom<'_>], facing: Facing) -> Option<NaiveDate> {
        if let [Figures(year), Between(a @ ('-' | '/' | '.')), Figures(m), Between(b), Figures(d)] = atoms
            && year.len() == 4
            && a == b
        {
            return NaiveDate::from_ymd_opt(full_year(year)?, small(m)?, small(d)?);
        }
        // Points are typed where the day comes first: with US units one cannot know which was meant.
        if atoms.contains(&Between('.')) && self.system == System::Us {
            return self.with_month_name(atoms, facing);
        }
        let (first, second, year) = match atoms {
            [Figures(a), Between('/' | '.' | '-'), Figures(b)]
            | [Figures(a), Between('.'), Figures(b), Between('.')] => (a, b, None),
            [Figures(a), Between(x @ ('/' | '.')), Figures(b), Between(y), Figures(year)] if x == y => {
                (a, b, Some(full_year(year)?))
            }
            // A time of day may follow a date: four figures are a year only where they are one.
            [Figures(a), Between('/' | '.' | '-'), Figures(b), Figures(year)] if year.len() == 4 => {
                (a, b, Some(full_year(year)?))
            }
            _ => return self.with_month_name(atoms, facing),
        };
        let (first, second) = (small(first)?, small(second)?);
        let (month, day) = match self.system {
            System::Us => (first, second),
            System::Metric => (second, first),
        };
        self.in_year(year, (month, day), facing)
    }

    /// `nov 25`, `25 nov 2026`, `nov 25th`.
    fn with_month_name(&self, atoms: &[Atom<'_>], facing: Facing) -> Option<NaiveDate> {
        let plain = |atom: &&Atom<'_>| !matches!(atom, Between('-' | '/' | '.') | Word("st" | "nd" | "rd" | "th"));
        let rest: Vec<Atom<'_>> = atoms.iter().filter(plain).copied().collect();
        let (name, day, year) = match rest.as_slice() {
            [Word(name), Figures(day)] | [Figures(day), Word(name)] => (name, day, None),
            [Word(name), Figures(day), Figures(year)] | [Figures(day), Word(name), Figures(year)] => {
                (name, day, Some(full_year(year)?))
            }
            _ => return None,
        };
        let name = if *name == "sept" { "sep" } else { name };
        let month: Month = name.parse().ok()?;
        self.in_year(year, (month.number_from_month(), small(day)?), facing)
    }

    /// A month and day in the year typed, else in the season's.
    fn in_year(&self, year: Option<i32>, (month, day): (u32, u32), facing: Facing) -> Option<NaiveDate> {
        let of = |year: i32| NaiveDate::from_ymd_opt(year, month, day);
        if let Some(year) = year {
            return of(year);
        }
        let this = self.today.year();
        let over = |end: NaiveDate| facing == Facing::Ahead && end < self.today;
        let Some((start, end)) = self.season.filter(|(_, end)| !over(*end)) else {
            return match facing {
                Facing::Back => [this, this.checked_sub(1)?].into_iter().filter_map(of).find(|d| *d <= self.today),
                Facing::Ahead => [this, this.checked_add(1)?].into_iter().filter_map(of).find(|d| *d >= self.today),
            };
        };
        let outside = |d: NaiveDate| (start - d).num_days().max((d - end).num_days()).max(0);
        let years = start.year().checked_sub(1)?..=end.year().checked_add(1)?;
        years.filter_map(of).min_by_key(|d| (outside(*d), (*d - self.today).num_days().abs()))
    }
}

/// The runs of a text in lower case; `None` where it holds anything else.
fn atoms(text: &str) -> Option<Vec<Atom<'_>>> {
    let mut all = Vec::new();
    let mut rest = text;
    while let Some(c) = rest.chars().next() {
        let of = |keep: fn(char) -> bool| rest.split_at(rest.find(|c| !keep(c)).unwrap_or(rest.len()));
        let (run, after) = if c.is_ascii_digit() {
            of(|c| c.is_ascii_digit())
        } else if c.is_ascii_lowercase() {
            of(|c| c.is_ascii_lowercase())
        } else {
            rest.split_at_checked(1)?
        };
        match c {
            ' ' | ',' => {}
            '/' | '.' | '-' | '+' => all.push(Between(c)),
            c if c.is_ascii_digit() => all.push(Figures(run)),
            c if c.is_ascii_lowercase() => all.push(Word(run)),
            _ => return None,
        }
        rest = after;
    }
    Some(all)
}

/// A weekday by three letters of its name or more.
fn weekday(word: &str) -> Option<Weekday> {
    let known = ["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"];
    let found = known.iter().find(|name| word.len() >= 3 && name.starts_with(word))?;
    found.get(..3)?.parse().ok()
}

/// A month or day in figures.
fn small(figures: &str) -> Option<u32> {
    if figures.len() > 2 { None } else { figures.parse().ok() }
}

/// A year in four figures, or in two of this century.
fn full_year(figures: &str) -> Option<i32> {
    match (figures.len(), figures.parse::<i32>().ok()?) {
        (2, year) => year.checked_add(2000),
        (4, year) => Some(year).filter(|year| (2000..=2100).contains(year)),
        _ => None,
    }
}

/// A time of day in lower case without blanks: `14:30`, `1430`, `2:30p`, `2pm`, `noon`.
fn time_of_day(text: &str) -> Option<NaiveTime> {
    if text == "noon" {
        return NaiveTime::from_hms_opt(12, 0, 0);
    }
    let end = text.find(|c: char| !(c.is_ascii_digit() || c == ':')).unwrap_or(text.len());
    let (figures, half) = text.split_at(end);
    let late = match half {
        "" => None,
        "a" | "am" | "a.m." | "a.m" => Some(false),
        "p" | "pm" | "p.m." | "p.m" => Some(true),
        _ => return None,
    };
    let (hour, minute) = match figures.split_once(':') {
        Some((hour, minute)) if minute.len() == 2 => (hour, minute),
        Some(_) => return None,
        None if figures.len() <= 2 && late.is_some() => (figures, "00"),
        None if (3..=4).contains(&figures.len()) => figures.split_at_checked(figures.len().checked_sub(2)?)?,
        None => return None,
    };
    let (hour, minute) = (small(hour)?, small(minute)?);
    let hour = match late {
        None => hour,
        Some(_) if !(1..=12).contains(&hour) => return None,
        Some(false) => hour % 12,
        Some(true) => (hour % 12).checked_add(12)?,
    };
    NaiveTime::from_hms_opt(hour, minute, 0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn day(text: &str) -> NaiveDate {
        text.parse().unwrap()
    }

    /// Monday, October 12, 2026, in a season of that fall.
    fn at(system: System) -> DayReader {
        let season = Some((day("2026-08-17"), day("2026-12-12")));
        DayReader { today: day("2026-10-12"), system, season }
    }

    #[test]
    fn days_are_read_as_they_are_typed() {
        for (text, wanted) in [
            ("11/25", "2026-11-25"),
            ("11/25/26", "2026-11-25"),
            ("11/25/2027", "2027-11-25"),
            ("11/25 2027", "2027-11-25"),
            ("11-25", "2026-11-25"),
            ("Nov 25", "2026-11-25"),
            ("nov25", "2026-11-25"),
            ("NOV25", "2026-11-25"),
            ("25 Nov", "2026-11-25"),
            ("25nov26", "2026-11-25"),
            ("November 25th, 2026", "2026-11-25"),
            ("Wed Nov 25, 2026", "2026-11-25"),
            ("Sept 1", "2026-09-01"),
            ("25-Nov-2026", "2026-11-25"),
            ("today", "2026-10-12"),
            ("Yesterday", "2026-10-11"),
            ("tomorrow", "2026-10-13"),
            ("+3", "2026-10-15"),
            ("-1", "2026-10-11"),
            ("+2w", "2026-10-26"),
            ("- 1 d", "2026-10-11"),
            ("2026-11-25", "2026-11-25"),
            ("2026/11/5", "2026-11-05"),
            // The year is the season's, or the nearest to it.
            ("1/5", "2027-01-05"),
            ("6/20", "2026-06-20"),
        ] {
            assert_eq!(at(System::Us).day(text, Facing::Back), Ok(day(wanted)), "{text}");
        }
    }

    #[test]
    fn the_day_comes_first_with_metric_units_and_what_fits_only_the_other_order_is_refused() {
        assert_eq!(at(System::Metric).day("5/11", Facing::Back), Ok(day("2026-11-05")));
        assert_eq!(at(System::Us).day("5/11", Facing::Back), Ok(day("2026-05-11")));
        assert_eq!(at(System::Metric).day("25.11.", Facing::Back), Ok(day("2026-11-25")));
        assert_eq!(at(System::Metric).day("25.11.26", Facing::Back), Ok(day("2026-11-25")));
        for (system, text, said) in [
            (System::Us, "25/11", "11/25 (month first), Nov 25"),
            (System::Metric, "11/25", "25/11 (day first), 25 Nov"),
            (System::Us, "12.10.2026", "month first"),
            (System::Us, "2/30", "month first"),
            (System::Us, "2/29", "month first"),
            (System::Us, "26-10-12", "month first"),
            (System::Us, "Tue Nov 25", "month first"),
            (System::Us, "1125", "month first"),
            (System::Us, "11/25/1999", "month first"),
            (System::Us, "soon", "month first"),
            (System::Us, "", "month first"),
            (System::Us, "+99999", "month first"),
        ] {
            let refused = at(system).day(text, Facing::Ahead).unwrap_err();
            assert!(refused.contains(said), "{text}: {refused}");
        }
    }

    #[test]
    fn a_weekday_is_the_last_where_it_was_done_and_the_next_where_it_is_to_come() {
        // The 12th is a Monday.
        let read = |text, facing| at(System::Us).day(text, facing).unwrap().day();
        assert_eq!((read("Fri", Facing::Back), read("Fri", Facing::Ahead)), (9, 16));
        assert_eq!((read("mon", Facing::Back), read("monday", Facing::Ahead)), (12, 19));
        assert_eq!((read("tues", Facing::Back), read("thurs", Facing::Ahead)), (6, 15));
    }

    #[test]
    fn without_a_season_the_year_is_the_one_the_field_looks_to() {
        let new = DayReader { season: None, ..at(System::Us) };
        assert_eq!(new.day("11/25", Facing::Back), Ok(day("2025-11-25")));
        assert_eq!(new.day("11/25", Facing::Ahead), Ok(day("2026-11-25")));
        assert_eq!(new.day("3/1", Facing::Ahead), Ok(day("2027-03-01")));
        // A season that is over says nothing of the next one.
        let over = DayReader { today: day("2027-02-01"), ..at(System::Us) };
        assert_eq!(over.day("11/25", Facing::Ahead), Ok(day("2027-11-25")));
        assert_eq!(over.day("11/25", Facing::Back), Ok(day("2026-11-25")));
    }

    #[test]
    fn times_are_read_as_they_are_typed() {
        for (text, wanted) in [
            ("14:30", "2026-10-12 14:30"),
            ("1430", "2026-10-12 14:30"),
            ("2:30p", "2026-10-12 14:30"),
            ("2:30 PM", "2026-10-12 14:30"),
            ("2:30 p.m.", "2026-10-12 14:30"),
            ("2pm", "2026-10-12 14:00"),
            ("230p", "2026-10-12 14:30"),
            ("730", "2026-10-12 07:30"),
            ("12:15a", "2026-10-12 00:15"),
            ("12p", "2026-10-12 12:00"),
            ("noon", "2026-10-12 12:00"),
            ("yesterday 2:30p", "2026-10-11 14:30"),
            ("2:30p yesterday", "2026-10-11 14:30"),
            ("10/9 1430", "2026-10-09 14:30"),
            ("Oct 9 2:30 pm", "2026-10-09 14:30"),
            ("Fri 14:30", "2026-10-09 14:30"),
            ("-1 7:05a", "2026-10-11 07:05"),
            ("2026-10-05T14:30", "2026-10-05 14:30"),
            ("2026-10-05 14:30", "2026-10-05 14:30"),
            ("Fri Oct 9, 2026, 2p", "2026-10-09 14:00"),
        ] {
            let (day, time) = at(System::Us).moment(text, Facing::Back).unwrap_or_else(|said| panic!("{said}"));
            assert_eq!(format!("{day} {}", time.unwrap().format("%H:%M")), wanted, "{text}");
        }
        let only_day = at(System::Us).moment("yesterday", Facing::Back);
        assert_eq!(only_day, Ok((day("2026-10-11"), None)));
        for wrong in ["25:00", "13p", "14:3", "7", "14:30:00", "soon", "", "2:30x", "0p"] {
            assert!(at(System::Us).moment(wrong, Facing::Back).is_err(), "{wrong}");
        }
    }

    proptest! {
        #[test]
        fn whatever_is_typed_is_read_or_refused(text in "\\PC{0,24}", metric in any::<bool>()) {
            let reader = at(if metric { System::Metric } else { System::Us });
            for facing in [Facing::Back, Facing::Ahead] {
                if let Ok(day) = reader.day(&text, facing) {
                    prop_assert!((2000..=2100).contains(&day.year()));
                }
                reader.moment(&text, facing).ok();
            }
        }

        #[test]
        fn a_day_in_figures_comes_back_in_either_order(n in 0u64..117, metric in any::<bool>()) {
            let wanted = day("2026-08-17").checked_add_days(Days::new(n)).unwrap();
            let (system, form) = if metric { (System::Metric, "%d/%m") } else { (System::Us, "%m/%d") };
            prop_assert_eq!(at(system).day(&wanted.format(form).to_string(), Facing::Back), Ok(wanted));
            prop_assert_eq!(at(system).day(&wanted.format("%a %b %d, %Y").to_string(), Facing::Ahead), Ok(wanted));
        }
    }
}
