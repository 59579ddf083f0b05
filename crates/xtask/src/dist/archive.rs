//! The archive and the checksums.

use super::Dist;
use crate::run::{run, run_with_in};
use std::fs;

/// Packs the folder: names in order, one time, no owner.
pub(super) fn pack(dist: &Dist) -> Result<(), String> {
    let (name, stage) = (dist.name(), dist.stage());
    let archive = dist.folder.join(format!("{name}.tar.gz"));
    let (time, within) = (format!("--mtime=@{}", dist.commit.epoch), format!("--transform=s,^\\.,{name},"));
    let same = ["--sort=name", "--format=gnu", "--owner=0", "--group=0", "--numeric-owner"];
    let how = ["--mode=u=rwX,go=rX", "--use-compress-program=gzip --no-name --best", &time, &within];
    let what =
        ["--create", "--file", &archive.to_string_lossy(), "--directory", &stage.to_string_lossy(), "."];
    run(&[&["tar"], &same[..], &how, &what].concat())
}

/// Writes SHA256SUMS of all that was made.
pub(super) fn sums(dist: &Dist) -> Result<(), String> {
    let entries = fs::read_dir(&dist.folder).map_err(|error| error.to_string())?;
    let mut names: Vec<String> = entries
        .filter_map(Result::ok)
        .filter(|entry| entry.file_type().is_ok_and(|kind| kind.is_file()))
        .map(|entry| entry.file_name().to_string_lossy().into_owned())
        .collect();
    names.sort();
    let line = ["sh", "-c", "sha256sum -- \"$@\" > SHA256SUMS", "sh"];
    run_with_in(
        &dist.folder,
        &[&line[..], &names.iter().map(String::as_str).collect::<Vec<_>>()].concat(),
        &[],
    )
}
