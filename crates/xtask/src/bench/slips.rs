//! What a slip in each file costs: samples with a number too high by one, against the same samples without.

use super::pairs::compare_times;
use super::samples::{sample_texts, write_all};
use crate::run::target;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

const FILES: usize = 1_000;
const PAIRS: usize = 7;

/// Measures it with this build and prints Markdown.
pub(crate) fn slips(program: &str) -> Result<(), String> {
    let home = target().join("bench");
    let texts: Vec<(String, Vec<usize>)> = sample_texts()?
        .into_iter()
        .map(|text| {
            let numbers = numbers(&text);
            (text, numbers)
        })
        .filter(|(_, numbers)| !numbers.is_empty())
        .collect();
    let (slips, clean) = (home.join("slips"), home.join("slipless"));
    write_all(&slips, "knot", FILES, |at| {
        let (text, numbers) = &texts[at % texts.len()];
        with_slip(text, numbers[(at / texts.len()) % numbers.len()])
    })?;
    write_all(&clean, "knot", FILES, |at| texts[at % texts.len()].0.clone())?;
    let [slips, clean] = [slips, clean].map(|home| home.display().to_string());
    let ratio = compare_times(|| time(program, &slips), || time(program, &clean), PAIRS)?;
    println!("\n| what | against | ratio: median (least to most) |\n| --- | --- | --- |");
    println!("| `check`, {FILES} files with a slip each | the same files without | {ratio} |");
    Ok(())
}

/// Where numbers begin that stand in braces and in no text, chart or color.
fn numbers(text: &str) -> Vec<usize> {
    let mut found = Vec::new();
    let (mut depth, mut start) = (0_usize, 0);
    for line in text.split_inclusive('\n') {
        let code = line.split("--").next().unwrap_or_default();
        if depth > 0 && !code.contains('"') {
            let words = code.match_indices(|letter: char| letter.is_ascii_digit());
            let is_first = |at: &usize| code[..*at].ends_with(' ');
            found.extend(words.map(|(at, _)| at).filter(is_first).map(|at| start + at));
        }
        depth = (depth + code.matches('{').count()).saturating_sub(code.matches('}').count());
        start += line.len();
    }
    found
}

/// The text with one more in the number that begins there.
fn with_slip(text: &str, at: usize) -> String {
    let rest = &text[at..];
    let digits = rest.find(|letter: char| !letter.is_ascii_digit()).unwrap_or(rest.len());
    let more =
        rest[..digits].parse::<u32>().map_or_else(|_| String::new(), |number| (number + 1).to_string());
    format!("{}{more}{}", &text[..at], &rest[digits..])
}

/// How long a check takes, whatever it finds.
fn time(program: &str, folder: &str) -> Result<Duration, String> {
    let begun = Instant::now();
    let mut command = Command::new(program);
    command.args(["check", folder]).stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null());
    let status = command.status().map_err(|error| format!("{program}: {error}"))?;
    let took = begun.elapsed();
    if status.code().is_some_and(|code| code < 2) {
        Ok(took)
    } else {
        Err(format!("{program} check {folder} failed"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slip_is_one_number_of_a_step_too_high_by_one() {
        let text = "strands 4 kelp\nset {\n  note \"9 of 9\"\n  take left 1: forward 9 -- 3\n}\n";
        let slips: Vec<String> = numbers(text).into_iter().map(|at| with_slip(text, at)).collect();
        assert_eq!(slips, [text.replace("left 1", "left 2"), text.replace("forward 9", "forward 10")]);
    }
}
