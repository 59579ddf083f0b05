//! How a color looks to eyes that lack one kind of cone.

use crate::Rgb;

/// Whose eyes look.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Default)]
pub enum Eyes {
    /// All three kinds of cones.
    #[default]
    Ordinary,
    /// Without the cones for long waves (red).
    Protan,
    /// Without the cones for middle waves (green).
    Deutan,
    /// Without the cones for short waves (blue).
    Tritan,
}

/// Rows give red, green and blue of what is seen, from linear red, green and blue.
type Matrix = [[f64; 3]; 3];

/// Machado, Oliveira & Fernandes 2009, "A Physiologically-based Model for Simulation of Color Vision Deficiency",
/// IEEE TVCG 15(6), severity 1.
const PROTAN: Matrix =
    [[0.152286, 1.052583, -0.204868], [0.114503, 0.786281, 0.099216], [-0.003882, -0.048116, 1.051998]];
const DEUTAN: Matrix =
    [[0.367322, 0.860646, -0.227968], [0.280085, 0.672501, 0.047413], [-0.011820, 0.042940, 0.968881]];
const TRITAN: Matrix =
    [[1.255528, -0.076749, -0.178779], [-0.078411, 0.930809, 0.147602], [0.004733, 0.691367, 0.303900]];

impl Eyes {
    /// All of them, the ordinary ones first.
    pub const ALL: [Self; 4] = [Self::Ordinary, Self::Protan, Self::Deutan, Self::Tritan];

    /// What ordinary eyes must be shown to see `color` as these eyes see it.
    pub fn see(self, color: Rgb) -> Rgb {
        let Some(matrix) = self.matrix() else { return color };
        let light = color.linear();
        Rgb::from_linear(
            matrix.map(|row| row.iter().zip(light).map(|(share, channel)| share * channel).sum()),
        )
    }

    fn matrix(self) -> Option<&'static Matrix> {
        match self {
            Self::Ordinary => None,
            Self::Protan => Some(&PROTAN),
            Self::Deutan => Some(&DEUTAN),
            Self::Tritan => Some(&TRITAN),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn gray_stays_gray_for_every_row_sums_to_one() {
        for matrix in [PROTAN, DEUTAN, TRITAN] {
            for row in matrix {
                assert!((row.iter().sum::<f64>() - 1.0).abs() < 2e-6);
            }
        }
        for eyes in Eyes::ALL {
            assert_eq!(eyes.see(Rgb::new(90, 90, 90)), Rgb::new(90, 90, 90));
        }
    }

    /// The matrices are those of the paper's table as PyPI `colour-science` 0.4.7 ships it; red was computed with
    /// it:
    ///
    /// ```python
    /// import colour, numpy as np
    /// M = colour.blindness.CVD_MATRICES_MACHADO2010["Protanomaly"][1.0]
    /// light = np.clip(M @ [1, 0, 0], 0, 1)
    /// print(np.round(colour.models.eotf_inverse_sRGB(light) * 255))
    /// ```
    #[test]
    fn red_through_other_eyes() {
        let red = Rgb::new(255, 0, 0);
        assert_eq!(Eyes::Protan.see(red), Rgb::new(109, 95, 0));
        assert_eq!(Eyes::Deutan.see(red), Rgb::new(163, 144, 0));
        assert_eq!(Eyes::Tritan.see(red), Rgb::new(255, 0, 15));
        assert_eq!(Eyes::Ordinary.see(red), red);
    }
}
