//! The active ingredients that are known, by their common names.

/// What an ingredient is used for on this crop.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Effect {
    /// Keeps the crop shorter.
    Shorter,
    /// Makes the crop taller (or the bracts larger).
    Taller,
    /// Makes it branch; used around the pinch only.
    Branching,
}

/// An active ingredient.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Ingredient {
    /// Ancymidol.
    Ancymidol,
    /// Benzyladenine with gibberellins A4 and A7, in equal parts; its ppm is that of each part.
    BaGa47,
    /// Chlormequat (chloride).
    Chlormequat,
    /// Daminozide.
    Daminozide,
    /// Ethephon.
    Ethephon,
    /// Flurprimidol.
    Flurprimidol,
    /// Gibberellic acid (gibberellin A3).
    Ga3,
    /// Paclobutrazol.
    Paclobutrazol,
    /// Uniconazole (uniconazole-P).
    Uniconazole,
}

impl Ingredient {
    /// Every one, in the order of their names.
    pub const ALL: [Self; 9] = [
        Self::Ancymidol,
        Self::BaGa47,
        Self::Chlormequat,
        Self::Daminozide,
        Self::Ethephon,
        Self::Flurprimidol,
        Self::Ga3,
        Self::Paclobutrazol,
        Self::Uniconazole,
    ];

    /// The name it is written with in a journal, and shown with: `daminozide`, `ba-ga47`.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Ancymidol => "ancymidol",
            Self::BaGa47 => "ba-ga47",
            Self::Chlormequat => "chlormequat",
            Self::Daminozide => "daminozide",
            Self::Ethephon => "ethephon",
            Self::Flurprimidol => "flurprimidol",
            Self::Ga3 => "ga3",
            Self::Paclobutrazol => "paclobutrazol",
            Self::Uniconazole => "uniconazole",
        }
    }

    /// Other ways its name is written, without spaces, signs and capitals.
    const fn also(self) -> &'static [&'static str] {
        match self {
            Self::BaGa47 => &["baga", "baga4ga7", "6baga47", "benzyladeninegibberellins", "benzyladeninega47"],
            Self::Chlormequat => &["chlormequatchloride"],
            Self::Ga3 => &["gibberellicacid", "gibberellina3"],
            Self::Uniconazole => &["uniconazolep"],
            _ => &[],
        }
    }

    /// The ingredient a journal's text names, ignoring case, spaces and hyphens. `None` for one that is not known
    /// here: it may be logged all the same, only nothing is known of it.
    pub fn parse(text: &str) -> Option<Self> {
        let plain: String = text.chars().filter(char::is_ascii_alphanumeric).map(|c| c.to_ascii_lowercase()).collect();
        let known = |i: &Self| i.name().replace('-', "") == plain || i.also().contains(&plain.as_str());
        Self::ALL.into_iter().find(known)
    }

    /// What it is used for.
    pub const fn effect(self) -> Effect {
        match self {
            Self::BaGa47 | Self::Ga3 => Effect::Taller,
            Self::Ethephon => Effect::Branching,
            Self::Ancymidol
            | Self::Chlormequat
            | Self::Daminozide
            | Self::Flurprimidol
            | Self::Paclobutrazol
            | Self::Uniconazole => Effect::Shorter,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::Ingredient;

    #[test]
    fn names_are_taken_as_people_write_them() {
        for ingredient in Ingredient::ALL {
            assert_eq!(Ingredient::parse(ingredient.name()), Some(ingredient));
            assert_eq!(Ingredient::parse(&ingredient.name().to_uppercase()), Some(ingredient));
        }
        assert_eq!(Ingredient::parse("Chlormequat chloride"), Some(Ingredient::Chlormequat));
        assert_eq!(Ingredient::parse("BA + GA4+7"), Some(Ingredient::BaGa47));
        assert_eq!(Ingredient::parse("uniconazole-P"), Some(Ingredient::Uniconazole));
        assert_eq!(Ingredient::parse("seaweed"), None);
        assert_eq!(Ingredient::parse(""), None);
    }
}
