//! What hangs in a gallery and what it was made from: so the next run draws only what changed.

use super::slug::is_slug;
use crate::lined::lined;
use crate::whole;
use knotwright_render::BandFacts;
use knotwright_workspace::{ReadError, read_text, refuse_special};
use serde::{Deserialize, Serialize};
use std::path::Path;

const NAME: &str = "knotwright-gallery.json";

const SCHEMA: &str = "knotwright/gallery/1";

/// A band that hangs in a gallery.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct HungBand {
    /// The file of the pattern, from the root of its workspace.
    pub(super) file: String,
    /// What its files here are called.
    pub(super) slug: String,
    /// All that it was made from; see [`super::key`].
    pub(super) key: String,
    /// How long its picture, words and sheet are, as far as there are any: half-written ones are not believed.
    pub(super) lengths: [Option<u64>; 3],
    /// What its card shows of the picture, as the end of an address; its top, if nothing is said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) view: Option<String>,
    pub(super) facts: BandFacts,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct GalleryManifest {
    schema: String,
    bands: Vec<HungBand>,
}

impl GalleryManifest {
    /// What hangs in the gallery of `folder`; `None` if there is none.
    ///
    /// # Errors
    /// In words: it cannot be read or understood.
    pub(super) fn read(folder: &Path) -> Result<Option<Vec<HungBand>>, String> {
        let path = folder.join(NAME);
        let text = match refuse_special(&path).and_then(|()| read_text(&path)) {
            Ok(text) => text,
            Err(ReadError::Missing) => return Ok(None),
            Err(error) => return Err(format!("{NAME}: {error}")),
        };
        let not_understood = |reason: &dyn std::fmt::Display| {
            format!("{NAME} cannot be understood ({reason}); remove this gallery, or name another folder")
        };
        let manifest: Self = serde_json::from_str(&text).map_err(|error| not_understood(&error))?;
        if manifest.schema != SCHEMA {
            return Err(not_understood(&format_args!("it says `{}`", manifest.schema)));
        }
        // Files are removed by these names.
        if let Some(hung) = manifest.bands.iter().find(|hung| !is_slug(&hung.slug)) {
            return Err(not_understood(&format_args!("no file here is called `{}`", hung.slug)));
        }
        Ok(Some(manifest.bands))
    }

    /// Writes what hangs there.
    ///
    /// # Errors
    /// In words.
    pub(super) fn write(folder: &Path, bands: &[HungBand]) -> Result<(), String> {
        whole::make(&folder.join(NAME), lined(SCHEMA, "bands", bands).as_bytes())
    }
}
