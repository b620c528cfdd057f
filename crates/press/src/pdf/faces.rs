//! The faces that cards and sheets are set in, and which characters they have.
//!
//! Libertinus Serif (SIL Open Font License 1.1) for text and figures, `DejaVu Sans Mono` (Bitstream
//! Vera licence) for the characters that the serif lacks. Both come inside the crate
//! `typst-assets`; its NOTICE holds the licences.

use std::sync::LazyLock;

use typst::foundations::Bytes;
use typst::layout::Abs;
use typst::text::{Font, FontVariant, FontVariations};

/// Family, style and weight of the faces in use, as their own name tables say.
const IN_USE: [&str; 4] = [
    "LibertinusSerif-Regular",
    "LibertinusSerif-Italic",
    "LibertinusSerif-Semibold",
    "DejaVuSansMono",
];

static FACES: LazyLock<Vec<Font>> = LazyLock::new(|| {
    typst_assets::fonts()
        .filter_map(|data| Font::new(Bytes::new(data), 0))
        .filter(|face| {
            face.post_script_name()
                .is_some_and(|name| IN_USE.contains(&name.as_str()))
        })
        .collect()
});

/// Every face in use, in the order of the embedded files.
pub(super) fn all() -> &'static [Font] {
    &FACES
}

/// Whether a face has a shape for this character, or it needs none.
pub(super) fn can_print(character: char) -> bool {
    needs_no_shape(character)
        || FACES
            .iter()
            .any(|face| face.info().coverage.contains(u32::from(character)))
}

/// A face of the text, to know how wide it sets.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Face {
    /// Sentences, measures, percentages.
    Regular,
    /// Cues.
    Italic,
    /// Titles, amounts.
    Semibold,
}

/// Height of a capital of the serif in parts of its type, by its own table `OS/2`.
pub(crate) const CAP_HEIGHT_EM: f64 = 0.645;

/// Signs whose widths are looked up once: all of Latin, and the marks of punctuation and fractions.
const KNOWN: [std::ops::Range<u32>; 2] = [0x20..0x250, 0x2000..0x2220];

/// Width of what the serif lacks, that of a letter of the mono.
const LACKING_EM: f64 = 0.602;

/// Widths of the known signs in each face, in its order.
static WIDTHS: LazyLock<[Vec<f64>; 3]> = LazyLock::new(|| {
    [IN_USE[0], IN_USE[1], IN_USE[2]].map(|name| {
        let is_it = |face: &&Font| face.post_script_name().is_some_and(|known| known == name);
        let face = FACES.iter().find(is_it).map(|face| {
            let variant = FontVariant::default();
            let size = Abs::pt(10.0);
            face.clone()
                .instantiate(variant, size, &FontVariations::default())
        });
        let width = |sign: u32| {
            let face = face.as_ref()?;
            let glyph = face.ttf().glyph_index(char::from_u32(sign)?)?;
            face.x_advance(glyph.0).map(typst::layout::Em::get)
        };
        let signs = KNOWN.into_iter().flatten();
        signs
            .map(|sign| width(sign).unwrap_or(LACKING_EM))
            .collect()
    })
});

/// Width of a sign in parts of its type.
pub(crate) fn advance_em(sign: char, face: Face) -> f64 {
    if needs_no_shape(sign) {
        return 0.0;
    }
    let sign = u32::from(sign);
    let [latin, marks] = KNOWN;
    let at = if latin.contains(&sign) {
        sign - latin.start
    } else if marks.contains(&sign) {
        latin.end - latin.start + sign - marks.start
    } else {
        return LACKING_EM;
    };
    let widths = match face {
        Face::Regular => &WIDTHS[0],
        Face::Italic => &WIDTHS[1],
        Face::Semibold => &WIDTHS[2],
    };
    widths.get(at as usize).copied().unwrap_or(LACKING_EM)
}

/// Width of a text in parts of its type: the sum of its letters' advances, with a little to spare
/// for figures of one width.
pub(super) fn width_em(text: &str, face: Face) -> f64 {
    const SPARE: f64 = 1.02;
    let widths = text.chars().map(|sign| advance_em(sign, face));
    widths.sum::<f64>() * SPARE
}

/// Line ends, joiners and the like, which the typesetter acts on and does not draw.
/// After the property `Default_Ignorable_Code_Point` of Unicode's `DerivedCoreProperties.txt`
/// (from memory; those that occur in plain text).
fn needs_no_shape(character: char) -> bool {
    matches!(
        character,
        '\t' | '\n' | '\r'
            | '\u{ad}'
            | '\u{34f}'
            | '\u{61c}'
            | '\u{200b}'..='\u{200f}'
            | '\u{2028}'..='\u{202e}'
            | '\u{2060}'..='\u{206f}'
            | '\u{fe00}'..='\u{fe0f}'
            | '\u{feff}'
    )
}

#[cfg(test)]
mod tests {
    use super::{FACES, IN_USE, can_print};

    #[test]
    fn every_face_in_use_is_embedded() {
        let mut found: Vec<_> = FACES
            .iter()
            .filter_map(typst::text::Font::post_script_name)
            .collect();
        found.sort();
        let mut wanted = IN_USE.map(str::to_owned).to_vec();
        wanted.sort();
        assert_eq!(found, wanted);
    }

    #[test]
    fn what_recipes_are_written_with_can_be_printed() {
        let signs = "¼½¾⅓⅔⅛⅜⅝⅞×−–—°·…’‘“”„«»→≤≥±µ½ %éèêñöüßåøæœłŻőÇşğ\u{a0}\u{202f}\u{2009}";
        let missing: String = signs.chars().filter(|sign| !can_print(*sign)).collect();
        assert_eq!(missing, "");
    }

    #[test]
    fn a_picture_sign_and_an_ideograph_cannot() {
        assert!(!can_print('🍞'));
        assert!(!can_print('麵'));
    }
}
