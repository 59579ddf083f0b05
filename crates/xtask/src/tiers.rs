//! Tests in tiers: each needs something more than Rust, which is installed first where that can be done.
//!
//! A tier that cannot be had on a machine is left out, and the end says so; a tier that fails ends the run. Only CI insists on
//! all: there a tier left out would be one that nobody has ever seen.

use std::fmt::Write as _;

/// A part of the tests.
pub(crate) struct Tier<'a> {
    pub(crate) name: &'static str,
    /// What it needs beyond Rust, for those who have to get that by hand.
    pub(crate) needs: &'static str,
    /// Installs what is missing; the error says why that cannot be done here.
    pub(crate) install: &'a dyn Fn() -> Result<(), String>,
    /// Runs the tests; the error is the step that failed.
    pub(crate) run: &'a dyn Fn() -> Result<(), String>,
}

/// Runs the tiers one after the other, up to the first that fails. What became of each is the answer, for people.
pub(crate) fn run(tiers: &[Tier], insists: bool) -> Result<String, String> {
    let mut report = String::from("\nTiers:\n");
    for tier in tiers {
        let name = tier.name;
        let became = match (tier.install)() {
            Ok(()) => {
                (tier.run)().map_err(|step| format!("{step} (tier `{name}`)"))?;
                "passed".to_owned()
            }
            Err(why) if insists => {
                return Err(format!(
                    "tier `{name}`: {why}. It needs: {}. CI insists on all tiers",
                    tier.needs
                ));
            }
            Err(why) => format!("LEFT OUT: {why}. It needs: {}", tier.needs),
        };
        let _ = writeln!(report, "  {name:<9} {became}");
    }
    Ok(report)
}

/// Whether this is CI, as CI services say it.
pub(crate) fn in_ci() -> bool {
    std::env::var("CI").is_ok_and(|value| value == "true" || value == "1")
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::cell::Cell;

    const NO_RIGHTS: fn() -> Result<(), String> = || Err("apt-get needs the rights of root".to_owned());
    const DONE: fn() -> Result<(), String> = || Ok(());

    fn tier<'a>(name: &'static str, install: &'a dyn Fn() -> Result<(), String>) -> Tier<'a> {
        Tier { name, needs: "a loom", install, run: &DONE }
    }

    #[test]
    fn a_tier_that_cannot_be_had_is_left_out_and_the_rest_run() {
        let ran = Cell::new(false);
        let last = || {
            ran.set(true);
            Ok(())
        };
        let tiers = [tier("browser", &NO_RIGHTS), Tier { run: &last, ..tier("fuzz", &DONE) }];
        let report = run(&tiers, false).expect("what is left out is no failure");
        assert!(ran.get(), "the next tier runs");
        assert_eq!(
            report,
            "\nTiers:\n  browser   LEFT OUT: apt-get needs the rights of root. It needs: a loom\n  fuzz      passed\n"
        );
    }

    #[test]
    fn what_was_left_out_is_never_run() {
        let tiers = [Tier { run: &|| panic!("nothing is there to run"), ..tier("browser", &NO_RIGHTS) }];
        run(&tiers, false).expect("it is left out");
    }

    #[test]
    fn ci_insists_on_every_tier() {
        let failed = run(&[tier("browser", &NO_RIGHTS)], true).expect_err("CI is content with less");
        assert!(failed.contains("`browser`") && failed.contains("a loom"), "{failed}");
    }

    #[test]
    fn a_tier_that_fails_ends_the_run_and_is_named() {
        let failing = || Err("npm test".to_owned());
        let tiers = [
            Tier { run: &failing, ..tier("browser", &DONE) },
            tier("fuzz", &|| panic!("what comes after a failure is not begun")),
        ];
        assert_eq!(run(&tiers, false), Err("npm test (tier `browser`)".to_owned()));
    }
}
