//! Packages of Debian and its kin.

use super::found;
use crate::run::{is_there, run, said};

/// Installs packages, unless all the programs that are wanted of them are there.
pub(crate) fn ask_for(programs: &[&str], packages: &[&str]) -> Result<(), String> {
    let missing: Vec<&str> = programs.iter().copied().filter(|program| found(program).is_none()).collect();
    if missing.is_empty() {
        return Ok(());
    }
    let verb = if missing.len() == 1 { "is" } else { "are" };
    install(&format!("{} {verb}", missing.join(", ")), packages)
}

/// Installs a package that brings no program.
pub(crate) fn ask_for_package(package: &str) -> Result<(), String> {
    if is_there(&["dpkg", "--status", package]) {
        Ok(())
    } else {
        install(&format!("{package} is"), &[package])
    }
}

/// Installs packages for want of something; the error says of what, and why it cannot be had.
pub(crate) fn install(missing: &str, packages: &[&str]) -> Result<(), String> {
    install_with_apt(packages).map_err(|why| format!("{missing} missing, and {why}"))
}

fn install_with_apt(packages: &[&str]) -> Result<(), String> {
    let is_root = said(&["id", "-u"]).is_ok_and(|id| id == "0");
    let before = before(found("apt-get").is_some(), is_root, || is_there(&["sudo", "-n", "true"]))?;
    let apt = [before, &["env", "DEBIAN_FRONTEND=noninteractive", "apt-get", "--quiet", "--yes"]].concat();
    // A new machine knows no packages before it has asked once.
    let outcome = run(&[&apt[..], &["update"]].concat())
        .and_then(|()| run(&[&apt[..], &["install", "--no-install-recommends"], packages].concat()));
    outcome.map_err(|step| format!("`{step}` failed"))
}

/// What has to be before apt-get; the error says why it cannot be used.
fn before(
    has_apt: bool,
    is_root: bool,
    may_sudo: impl FnOnce() -> bool,
) -> Result<&'static [&'static str], String> {
    match (has_apt, is_root) {
        (false, _) => Err("this system has no apt-get".to_owned()),
        (true, true) => Ok(&[]),
        (true, false) if may_sudo() => Ok(&["sudo", "-n"]),
        (true, false) => Err("apt-get needs the rights of root".to_owned()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn apt_get_is_used_only_with_the_rights_for_it() {
        assert_eq!(before(true, true, || panic!("root need not ask")), Ok(&[][..]));
        assert_eq!(before(true, false, || true), Ok(&["sudo", "-n"][..]));
        assert_eq!(before(true, false, || false), Err("apt-get needs the rights of root".to_owned()));
    }

    #[test]
    fn another_system_is_not_asked_for_rights() {
        let refused = before(false, true, || panic!("there is nothing to run"));
        assert_eq!(refused, Err("this system has no apt-get".to_owned()));
    }

    #[test]
    fn nothing_is_installed_where_all_is_there() {
        assert_eq!(ask_for(&["cargo"], &["no-such-package"]), Ok(()));
    }
}
