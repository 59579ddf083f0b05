//! A picture as a face.

use super::explain_no_face;
use crate::terminal::Failure;
use knotwright_band::MOST_STRANDS;
use knotwright_color::{Rgb, find_nearest, gather_colors};
use knotwright_designer::WishedFace;
use knotwright_maker::{DrawnFace, FaceThread};
use knotwright_numbers::ToNumber;
use knotwright_render::{KnotSize, MOST_PIXELS};
use png::{ColorType, Decoder, Limits, Transformations};
use std::io::Cursor;

/// What every PNG begins with (W3C, Portable Network Graphics, third edition, 5.2).
const SIGNATURE: &[u8] = b"\x89PNG\r\n\x1a\n";

/// Of a band whose width is not said.
const USUAL_STRANDS: u8 = 16;

/// Of a band whose number of colors is not said.
const USUAL_COLORS: usize = 4;

/// A pixel with less of its own color than this is not seen.
const SEEN_FROM: u8 = 128;

/// Whether these are the bytes of a PNG, by how they begin.
pub(crate) fn is_png(bytes: &[u8]) -> bool {
    bytes.starts_with(SIGNATURE)
}

/// A picture, eight bits a channel.
pub(crate) struct Picture {
    width: usize,
    height: usize,
    /// Red, green, blue and opacity, row by row.
    pixels: Vec<[u8; 4]>,
}

/// How large a face is wanted.
#[derive(Debug, Clone, Copy)]
pub(crate) struct FaceSize {
    pub(crate) strands: Option<u8>,
    pub(crate) rows: Option<u32>,
}

impl Picture {
    /// Reads a PNG.
    ///
    /// # Errors
    /// It is none, it is broken, or it is too large.
    pub(crate) fn read(bytes: &[u8]) -> Result<Self, Failure> {
        let broken =
            |error: png::DecodingError| Failure::said(format_args!("this PNG cannot be read: {error}"));
        let limits = Limits { bytes: MOST_PIXELS.to_usize() };
        let mut decoder = Decoder::new_with_limits(Cursor::new(bytes), limits);
        decoder.set_transformations(Transformations::normalize_to_color8() | Transformations::ALPHA);
        let mut reader = decoder.read_info().map_err(broken)?;
        let (width, height) = reader.info().size();
        if u64::from(width) * u64::from(height) > MOST_PIXELS {
            return Err(Failure::said(format_args!(
                "this PNG has {width} by {height} pixels, and at most {MOST_PIXELS} are read; make it smaller"
            )));
        }
        let mut buffer = vec![0; reader.output_buffer_size().unwrap_or(0)];
        let frame = reader.next_frame(&mut buffer).map_err(broken)?;
        let channels = frame.color_type.samples();
        let pixel = |samples: &[u8]| match (frame.color_type, samples) {
            (ColorType::GrayscaleAlpha, &[gray, opacity]) => [gray, gray, gray, opacity],
            (ColorType::Rgba, &[red, green, blue, opacity]) => [red, green, blue, opacity],
            (_, &[red, green, blue, ..]) => [red, green, blue, u8::MAX],
            (_, samples) => {
                let gray = samples.first().copied().unwrap_or(0);
                [gray, gray, gray, u8::MAX]
            }
        };
        let pixels = buffer.chunks_exact(channels).map(pixel).collect();
        Ok(Self { width: width.to_usize(), height: height.to_usize(), pixels })
    }

    /// The picture as a face, sampled at the centers of the knots. Where nothing is to be seen in it, any color may be.
    /// `threads`: all that there are, if they are given. `colors`: how many are used at most.
    ///
    /// # Errors
    /// The face is too large, or nothing is to be seen in it.
    pub(crate) fn face(
        &self,
        size: FaceSize,
        colors: Option<usize>,
        threads: &[FaceThread],
    ) -> Result<DrawnFace, Failure> {
        let (strands, rows) = self.size(size)?;
        let samples: Vec<Vec<Option<Rgb>>> = (0..rows).map(|row| self.row(row, rows, strands)).collect();
        let seen: Vec<Rgb> = samples.iter().flatten().copied().flatten().collect();
        let own: Vec<Rgb> = threads.iter().map(|thread| thread.color).collect();
        let palette = match (own.is_empty(), colors) {
            (true, _) => gather_colors(&seen, colors.unwrap_or(USUAL_COLORS)),
            (false, None) => own,
            (false, Some(colors)) => find_threads(&gather_colors(&seen, colors), &own),
        };
        let marks: Vec<Vec<_>> = samples
            .iter()
            .map(|row| {
                row.iter()
                    .map(|color| Some(color.map(|color| find_nearest(color, &palette).to_u16())))
                    .collect()
            })
            .collect();
        let face = WishedFace::from_rows(strands, false, &marks).map_err(explain_no_face)?;
        let named = |color: &Rgb| threads.iter().find(|thread| thread.color == *color).cloned();
        let threads = match threads.is_empty() {
            true => FaceThread::named_by_color(&palette),
            false => palette.iter().filter_map(named).collect(),
        };
        Ok(DrawnFace { face, threads })
    }

    /// How many strands and rows: what was not said, so that the picture keeps its shape.
    fn size(&self, size: FaceSize) -> Result<(usize, usize), Failure> {
        let KnotSize { width, pitch, .. } = KnotSize::default();
        let shape = self.height.to_f64() / self.width.max(1).to_f64();
        let strands = match (size.strands, size.rows) {
            (Some(strands), _) => f64::from(strands),
            (None, None) => f64::from(USUAL_STRANDS),
            (None, Some(rows)) => {
                (f64::from(rows) * pitch / shape / width).round().clamp(3.0, MOST_STRANDS.to_f64())
            }
        };
        let rows = match size.rows {
            Some(rows) => rows.to_usize(),
            // An even number: the next set begins in bricks as this one.
            None => 2 * (strands * width * shape / pitch / 2.0).round().max(1.0).to_usize(),
        };
        if strands < 2.0 {
            return Err(explain_no_face(knotwright_designer::NoFace::StrandCount {
                strands: strands.to_usize(),
            }));
        }
        if rows == 0 {
            return Err(Failure::said("a face needs at least one row"));
        }
        let knots = rows.saturating_mul(strands.to_usize() - 1) / 2;
        if knots > knotwright_designer::MOST_FACE_KNOTS {
            return Err(explain_no_face(knotwright_designer::NoFace::TooManyKnots { knots }));
        }
        Ok((strands.to_usize(), rows))
    }

    fn row(&self, row: usize, rows: usize, strands: usize) -> Vec<Option<Rgb>> {
        let down = (2 * row + 1) * self.height / (2 * rows);
        let sample = |gap: usize| {
            let across = (gap + 1) * self.width / strands;
            let [red, green, blue, opacity] = self.pixels.get(down * self.width + across).copied()?;
            (opacity >= SEEN_FROM).then_some(Rgb::new(red, green, blue))
        };
        (row % 2..strands - 1).step_by(2).map(sample).collect()
    }
}

/// The colors of the threads that look most like these, each once.
fn find_threads(colors: &[Rgb], threads: &[Rgb]) -> Vec<Rgb> {
    let mut found: Vec<Rgb> = Vec::new();
    for color in colors {
        let thread = threads[find_nearest(*color, threads)];
        if !found.contains(&thread) {
            found.push(thread);
        }
    }
    found
}
