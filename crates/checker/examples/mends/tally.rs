//! What became of slips, counted.

use knotwright_numbers::ToNumber;

/// What became of the slips of one sort.
#[derive(Default, Clone)]
pub(crate) struct Tally {
    pub(crate) slips: usize,
    pub(crate) caught: usize,
    pub(crate) offered: usize,
    pub(crate) first: usize,
    pub(crate) pointed: usize,
    /// The first mend gives the band that was written, if by another edit.
    pub(crate) same_band: usize,
    pub(crate) certain: usize,
    pub(crate) wrongly_certain: usize,
    pub(crate) choices: usize,
    pub(crate) findings: usize,
}

impl Tally {
    pub(crate) fn add(&mut self, other: &Self) {
        self.slips += other.slips;
        self.caught += other.caught;
        self.offered += other.offered;
        self.first += other.first;
        self.pointed += other.pointed;
        self.same_band += other.same_band;
        self.certain += other.certain;
        self.wrongly_certain += other.wrongly_certain;
        self.choices += other.choices;
        self.findings += other.findings;
    }

    fn row(&self, name: &str) -> String {
        let share = |part: usize, whole: usize| match whole {
            0 => "-".to_owned(),
            whole => format!("{:.1} %", 100.0 * part.to_f64() / whole.to_f64()),
        };
        format!(
            "| {name} | {} | {} | {} | {} | {} | {} | {} | {} | {:.1} | {:.1} |",
            self.slips,
            share(self.caught, self.slips),
            share(self.pointed, self.caught),
            share(self.offered, self.caught),
            share(self.first, self.caught),
            share(self.same_band, self.caught),
            share(self.certain, self.caught),
            self.wrongly_certain,
            self.choices.to_f64() / self.caught.max(1).to_f64(),
            self.findings.to_f64() / self.caught.max(1).to_f64(),
        )
    }
}

const COLUMNS: &str =
    "slips | caught | pointed at | offered | first | true band | certain | wrongly | mends | findings";

/// A table in Markdown, with a line for all of it.
pub(crate) fn print(first: &str, lines: &[(String, Tally)]) {
    println!("| {first} | {COLUMNS} |");
    println!("| --- |{}", " ---: |".repeat(10));
    let mut all = Tally::default();
    for (name, tally) in lines.iter().filter(|(_, tally)| tally.slips > 0) {
        all.add(tally);
        println!("{}", tally.row(name));
    }
    println!("{}\n", all.row("**all**"));
}
