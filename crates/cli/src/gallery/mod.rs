//! A gallery in a folder: what is written there, what stays, what goes.

mod drawn;
mod key;
mod manifest;
mod slug;

pub(crate) use drawn::{DrawnBand, UntiedBand};
pub(crate) use manifest::HungBand;

use crate::whole;
use knotwright_numbers::ToNumber;
use knotwright_render::{HangingBand, write_gallery};
use knotwright_workspace::refusal;
use manifest::GalleryManifest;
use slug::Slugs;
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

/// The folders of a gallery, and the endings of what is in them.
const FOLDERS: [(&str, &str); 3] = [("pictures", "svg"), ("words", "html"), ("sheets", "html")];

const PAGE: &str = "index.html";

/// A folder with a gallery, or one that is to become it.
pub(crate) struct GallerySite {
    folder: PathBuf,
    /// What hung there, by its file.
    before: BTreeMap<String, HungBand>,
    slugs: Slugs,
}

/// What became of a gallery.
#[derive(Debug, Default, Clone, Copy, PartialEq, Eq)]
pub(crate) struct GalleryCount {
    /// Bands that were drawn.
    pub(crate) drawn: usize,
    /// Bands that hang as they did.
    pub(crate) kept: usize,
    /// Bands that went.
    pub(crate) removed: usize,
}

impl GallerySite {
    /// The gallery in `folder`, which is made if it is not there.
    ///
    /// # Errors
    /// In words: something else is in the folder, or it cannot be made or read.
    pub(crate) fn open(folder: &Path) -> Result<Self, String> {
        fs::create_dir_all(folder)
            .map_err(|error| format!("the folder cannot be made: {}", refusal(&error)))?;
        let manifest = GalleryManifest::read(folder)?;
        let is_empty = || fs::read_dir(folder).is_ok_and(|mut entries| entries.next().is_none());
        if manifest.is_none() && !is_empty() {
            return Err("this folder holds something that is no gallery; name an empty one".to_owned());
        }
        for (name, _) in FOLDERS {
            make_folder(&folder.join(name))?;
        }
        let hung = manifest.unwrap_or_default();
        // Whoever interrupts us leaves some bands drawn again and some not: then none is believed.
        let begun = hung.iter().map(|hung| HungBand { key: String::new(), ..hung.clone() });
        GalleryManifest::write(folder, &begun.collect::<Vec<_>>())?;
        let before = hung.into_iter().map(|hung| (hung.file.clone(), hung)).collect();
        Ok(Self { folder: folder.to_path_buf(), before, slugs: Slugs::default() })
    }

    /// The name, in this gallery, of the files for the pattern in `file`.
    pub(crate) fn slug(&mut self, file: &str) -> String {
        self.slugs.of(file)
    }

    /// What hangs there already of the pattern in `file`, if it was made from the same `key` and is all there.
    pub(crate) fn kept(&self, file: &str, slug: &str, key: &str) -> Option<&HungBand> {
        let hung = self.before.get(file).filter(|hung| hung.key == key && hung.slug == slug)?;
        let is_there = |(number, length): (usize, &Option<u64>)| match length {
            Some(length) => self.path(number, slug).metadata().is_ok_and(|about| about.len() == *length),
            None => true,
        };
        hung.lengths.iter().enumerate().all(is_there).then_some(hung)
    }

    /// Writes what was drawn of a band.
    ///
    /// # Errors
    /// In words.
    pub(crate) fn hang(&self, drawn: DrawnBand) -> Result<HungBand, String> {
        let mut lengths = [None; 3];
        for (number, text) in drawn.texts.iter().enumerate() {
            if let Some(text) = text {
                let path = self.path(number, &drawn.slug);
                whole::make(&path, text.as_bytes())
                    .map_err(|reason| format!("{}: {reason}", knotwright_workspace::shown_path(&path)))?;
                lengths[number] = Some(text.len().to_u64());
            }
        }
        let DrawnBand { file, slug, key, view, facts, .. } = drawn;
        Ok(HungBand { file, slug, key, lengths, view, facts })
    }

    /// Writes the page and what is known of it, and removes what does not hang there any more.
    ///
    /// # Errors
    /// In words.
    pub(crate) fn finish(self, title: &str, mut hung: Vec<HungBand>) -> Result<usize, String> {
        hung.sort_by(|one, other| one.file.cmp(&other.file));
        let address = |number: usize, slug: &str| {
            let (folder, ending) = FOLDERS[number];
            format!("{folder}/{slug}.{ending}")
        };
        let addresses: Vec<[String; 3]> =
            hung.iter().map(|of| [0, 1, 2].map(|number| address(number, &of.slug))).collect();
        let pictures: Vec<String> = hung
            .iter()
            .zip(&addresses)
            .map(|(of, [picture, ..])| format!("{picture}{}", of.view.as_deref().unwrap_or_default()))
            .collect();
        let bands = hung.iter().zip(&addresses).zip(&pictures).map(|((of, [_, words, sheet]), picture)| {
            HangingBand {
                facts: &of.facts,
                file: &of.file,
                picture,
                words,
                sheet: of.lengths[2].map(|_| sheet.as_str()),
            }
        });
        let page = write_gallery(title, &bands.collect::<Vec<_>>());
        let path = self.folder.join(PAGE);
        whole::make(&path, page.as_bytes())?;
        // Last, so that it never lists what is not there.
        GalleryManifest::write(&self.folder, &hung)?;
        Ok(self.sweep(&hung))
    }

    /// Removes the files of bands that went, and of those that lost their sheet.
    fn sweep(&self, hung: &[HungBand]) -> usize {
        let now: BTreeMap<&str, &HungBand> = hung.iter().map(|of| (of.slug.as_str(), of)).collect();
        for of in self.before.values() {
            let kept = now.get(of.slug.as_str()).map_or([None; 3], |of| of.lengths);
            for number in (0..3).filter(|number| kept[*number].is_none()) {
                // What is gone already need not go.
                let _ = fs::remove_file(self.path(number, &of.slug));
            }
        }
        let files: Vec<&str> = hung.iter().map(|of| of.file.as_str()).collect();
        self.before.keys().filter(|file| files.binary_search(&file.as_str()).is_err()).count()
    }

    fn path(&self, number: usize, slug: &str) -> PathBuf {
        let (folder, ending) = FOLDERS[number];
        self.folder.join(folder).join(format!("{slug}.{ending}"))
    }
}

fn make_folder(folder: &Path) -> Result<(), String> {
    match folder.symlink_metadata() {
        Ok(about) if about.is_dir() => Ok(()),
        Ok(_) => Err(format!("{} is no folder", knotwright_workspace::shown_path(folder))),
        Err(_) => {
            fs::create_dir(folder).map_err(|error| format!("a folder cannot be made: {}", refusal(&error)))
        }
    }
}
