//! The colours of everything that goes out: ink on paper, crust for heat, milk blue for cold.
//!
//! Contrast is that of WCAG 2.2, 1.4.3 (at least 4.5 : 1 for text on its ground), checked by the
//! tests below for every pair that is printed.

/// A colour as red, green and blue of sRGB.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Colour {
    /// Red.
    pub red: u8,
    /// Green.
    pub green: u8,
    /// Blue.
    pub blue: u8,
}

impl Colour {
    /// From 0xRRGGBB.
    pub const fn from_hex(hex: u32) -> Self {
        let [_, red, green, blue] = hex.to_be_bytes();
        Self { red, green, blue }
    }

    /// As style sheets and the typesetter read it: "#rrggbb".
    pub fn css(self) -> String {
        format!("#{:02x}{:02x}{:02x}", self.red, self.green, self.blue)
    }
}

/// The colours of one scheme.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Scheme {
    /// The ground.
    pub paper: Colour,
    /// Text and figures.
    pub ink: Colour,
    /// Second text: details, kitchen measures.
    pub ink_soft: Colour,
    /// Hairlines; never text.
    pub rule: Colour,
    /// Heat: oven, core, warm place.
    pub crust: Colour,
    /// Water, cold and waiting.
    pub milk: Colour,
}

/// By day and on screen.
pub const LIGHT: Scheme = Scheme {
    paper: Colour::from_hex(0x00fc_faf5),
    ink: Colour::from_hex(0x0023_1f1b),
    ink_soft: Colour::from_hex(0x0059_5249),
    rule: Colour::from_hex(0x008c_8376),
    crust: Colour::from_hex(0x0093_4311),
    milk: Colour::from_hex(0x0024_5d86),
};

/// By night.
pub const DARK: Scheme = Scheme {
    paper: Colour::from_hex(0x001b_1815),
    ink: Colour::from_hex(0x00ed_e6db),
    ink_soft: Colour::from_hex(0x00b9_afa1),
    rule: Colour::from_hex(0x007d_7468),
    crust: Colour::from_hex(0x00ec_9d64),
    milk: Colour::from_hex(0x0090_c2e6),
};

/// On paper: white ground, black ink, so that a printer in black alone loses nothing.
pub const PRINT: Scheme = Scheme {
    paper: Colour::from_hex(0x00ff_ffff),
    ink: Colour::from_hex(0x0000_0000),
    ink_soft: Colour::from_hex(0x0045_403a),
    rule: Colour::from_hex(0x0059_5249),
    crust: Colour::from_hex(0x0083_390b),
    milk: Colour::from_hex(0x001d_5077),
};

/// A crust as it darkens: dough, pale gold, golden, brown, dark. Grounds of a drawing, each doubled by
/// a pattern and a word.
pub const CRUST: [Colour; 5] = [
    Colour::from_hex(0x00f7_efdc),
    Colour::from_hex(0x00ee_d9a6),
    Colour::from_hex(0x00da_ae62),
    Colour::from_hex(0x00ab_6c2f),
    Colour::from_hex(0x0059_3315),
];

/// A piece cut through as it warms: dough, yeast dying, crumb setting, crumb, hot, dry crust. Each is
/// darker than the one before it and has a pattern of its own.
pub const WARMTH: [Colour; 6] = [
    Colour::from_hex(0x00ff_ffff),
    Colour::from_hex(0x00e3_edf4),
    Colour::from_hex(0x00f6_e3c8),
    Colour::from_hex(0x00ea_c291),
    Colour::from_hex(0x00cd_8d53),
    Colour::from_hex(0x0059_3315),
];

#[cfg(test)]
mod tests {
    use super::{CRUST, Colour, DARK, LIGHT, PRINT, Scheme, WARMTH};

    /// A channel of sRGB as linear light (IEC 61966-2-1).
    fn linear(channel: u8) -> f64 {
        let share = f64::from(channel) / 255.0;
        if share <= 0.040_45 {
            share / 12.92
        } else {
            numerics::math::pow((share + 0.055) / 1.055, 2.4)
        }
    }

    /// Relative luminance as WCAG 2.2 defines it.
    fn luminance(colour: Colour) -> f64 {
        0.2126 * linear(colour.red) + 0.7152 * linear(colour.green) + 0.0722 * linear(colour.blue)
    }

    fn contrast(one: Colour, other: Colour) -> f64 {
        let (a, b) = (luminance(one), luminance(other));
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }

    #[test]
    fn contrast_of_black_on_white_is_21() {
        let ratio = contrast(PRINT.ink, PRINT.paper);
        assert!((ratio - 21.0).abs() < 1e-9, "{ratio}");
    }

    #[test]
    fn every_text_colour_reads_on_its_ground() {
        for (name, scheme) in [("light", LIGHT), ("dark", DARK), ("print", PRINT)] {
            let Scheme {
                paper,
                ink,
                ink_soft,
                rule,
                crust,
                milk,
            } = scheme;
            for (what, colour, least) in [
                ("ink", ink, 7.0),
                ("soft ink", ink_soft, 4.5),
                ("crust", crust, 4.5),
                ("milk", milk, 4.5),
                ("rule", rule, 3.0),
            ] {
                let ratio = contrast(colour, paper);
                assert!(
                    ratio >= least,
                    "{name}: {what} has {ratio:.2}, needs {least}"
                );
            }
        }
    }

    #[test]
    fn what_darkens_darkens_without_colour_too() {
        for scale in [&CRUST[..], &WARMTH[..]] {
            for pair in scale.windows(2) {
                assert!(luminance(pair[1]) < luminance(pair[0]), "{pair:?}");
            }
        }
    }
}
