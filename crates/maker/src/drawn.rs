//! The band as a picture.

use crate::room::MOST_KNOTS;
use crate::scripted::{recolor_script, script_sets};
use knotwright_checker::{Pattern, USUAL_LANGUAGE};
use knotwright_color::Eyes;
use knotwright_render::{ChartOptions, Scene, SvgOptions, TyingScript, draw_chart, draw_svg};

/// Of a pattern that does not say how long it is, this many sets are drawn: enough to see how they join.
pub const SETS_TO_SEE: u64 = 3;

/// How a band is to be drawn.
#[derive(Debug, Clone, Default)]
pub struct Look {
    /// The working chart in place of the band as it will look.
    pub chart: bool,
    /// In the colors of which colorway.
    pub colorway: Option<String>,
    /// As which eyes see it.
    pub eyes: Eyes,
    /// How many sets, other than the pattern says.
    pub sets: Option<u32>,
}

/// The script of a band that is to be seen.
///
/// # Errors
/// In words: it is not known how its sets go on, there is no such colorway, or it is too long for a picture.
pub fn scripted_to_see(
    pattern: &Pattern,
    sets: Option<u32>,
    colorway: Option<&str>,
) -> Result<TyingScript, String> {
    let mut script = script_sets(pattern, sets, SETS_TO_SEE).map_err(|reason| reason.to_string())?;
    if let Some(name) = colorway {
        recolor_script(&mut script, pattern, name, USUAL_LANGUAGE)?;
    }
    if script.knots() > MOST_KNOTS || script.times > MOST_KNOTS {
        return Err("that is more than a million knots or sets; draw fewer sets, such as 4".to_owned());
    }
    Ok(script)
}

/// The picture as SVG.
///
/// # Errors
/// As [`scripted_to_see`].
pub fn draw_pattern(pattern: &Pattern, look: &Look) -> Result<String, String> {
    let script = scripted_to_see(pattern, look.sets, look.colorway.as_deref())?;
    let script = script.seen_by(look.eyes);
    Ok(if look.chart {
        draw_chart(&script, &ChartOptions::default())
    } else {
        draw_svg(&Scene::of(&script.band()), &SvgOptions::default())
    })
}
