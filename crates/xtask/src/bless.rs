//! Writes again the files that are made from others. Tests fail while they differ.

use crate::run::run;

pub(crate) fn bless() -> Result<(), String> {
    run(&["cargo", "test", "--package", "knotwright-checker", "--test", "pages", "--", "--ignored"])?;
    run(&["cargo", "test", "--package", "knotwright-tests", "--test", "made", "--", "--ignored"])
}
