//! What is handed out: made from the commit, not from the files as they are there, so that one commit makes the same
//! bytes wherever it is made. Not a part of `cargo xtask test`, as it takes minutes.

mod archive;
mod from;
mod notices;
mod package;
mod program;
mod stage;
mod tools;

use crate::run::{run, target, top};
use from::Commit;
use std::fs;
use std::path::PathBuf;

/// What all the steps know.
struct Dist {
    /// Where the finished files are put.
    folder: PathBuf,
    /// The files of the commit.
    source: PathBuf,
    /// Where cargo builds.
    build: PathBuf,
    commit: Commit,
    /// What the program runs on, as rustc names it.
    triple: String,
}

impl Dist {
    /// The folder that is packed.
    fn stage(&self) -> PathBuf {
        self.built().join("stage")
    }

    /// Where cargo puts the program.
    fn built(&self) -> PathBuf {
        self.build.join(&self.triple).join("dist")
    }

    /// What the files are called, without their endings.
    fn name(&self) -> String {
        format!("knotwright-{}-{}", env!("CARGO_PKG_VERSION"), self.triple)
    }
}

pub(crate) fn dist(wanted: Option<String>) -> Result<(), String> {
    let folder = target().join("dist");
    let tools = tools::DistTools::install(&folder)?;
    emptied_of_files(&folder).map_err(|error| format!("{}: {error}", folder.display()))?;
    let source = folder.join("source");
    let commit = from::lay_out(&source)?;
    let triple = program::triple(wanted)?;
    let dist = Dist { source, build: folder.join("cargo"), commit, triple, folder };
    let program = program::build(&dist)?;
    stage::lay_out(&dist, &program)?;
    notices::licenses(&dist, &tools)?;
    notices::bill_of_materials(&dist, &tools)?;
    archive::pack(&dist)?;
    package::debian(&dist, &tools)?;
    package::extension(&dist, &program)?;
    archive::sums(&dist)?;
    run(&[&top().join("packaging/try.sh").to_string_lossy(), &dist.folder.to_string_lossy()])?;
    eprintln!("\nmade from {}, in {}", dist.commit.id, dist.folder.display());
    Ok(())
}

/// The folders within hold what would take minutes to build again; the files are of another run.
fn emptied_of_files(folder: &std::path::Path) -> std::io::Result<()> {
    for entry in fs::read_dir(folder)? {
        let entry = entry?;
        if entry.file_type()?.is_file() {
            fs::remove_file(entry.path())?;
        }
    }
    Ok(())
}
