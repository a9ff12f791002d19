//! Icons of our own: lines on a sheet of 24 by 24, in the colour of the text beside them.

/// What an icon stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Icon {
    /// A workshop's roof and door.
    Home,
    /// A core from the front.
    InHand,
    /// Two bars of unequal height.
    Compare,
    /// Three lines.
    More,
    /// An oven as it stands at the curb.
    SizeUp,
    /// A screwdriver.
    Teardown,
    /// Calipers.
    Measure,
    /// A coil round the tongue of a core.
    Rewind,
    /// A reel of wire with its end.
    Wind,
    /// A meter's dial.
    Bench,
}

impl Icon {
    /// All of them.
    pub const ALL: [Icon; 10] = [
        Icon::Home,
        Icon::InHand,
        Icon::Compare,
        Icon::More,
        Icon::SizeUp,
        Icon::Teardown,
        Icon::Measure,
        Icon::Rewind,
        Icon::Wind,
        Icon::Bench,
    ];

    /// Its lines, as the data of one SVG path.
    const fn lines(self) -> &'static str {
        match self {
            Icon::Home => "M2 11L12 3L22 11M4 10V21H20V10M9 21V14H15V21",
            Icon::InHand => "M3 3H21V20H3ZM3 7H21M7 7V16H10V7M14 7V16H17V7",
            Icon::Compare => "M2 21H22M5 21V12H10V21M14 21V5H19V21",
            Icon::More => "M4 6H20M4 12H20M4 18H20",
            Icon::SizeUp => "M2 5H22V18H2ZM5 8H15V15H5ZM18.5 8V10M18.5 13V15M5 18V20M19 18V20",
            Icon::Teardown => {
                "M14 10L20 4L21 5L15 11M14 10L15 11M14.5 10.5L5.5 19.5M7.5 19L5 21.5L2.5 21.5L2.5 19L5 16.5"
            }
            Icon::Measure => "M2 5H22V9H2ZM4 9V20L8 14V9M13 9V14L17 20V9M11 5V7M15 5V7M19 5V7",
            Icon::Rewind => {
                "M3 3H21V21H3ZM10 3V7M14 3V7M10 17V21M14 17V21M7 7H17V10H7ZM7 10H17V13.5H7ZM7 13.5H17V17H7Z"
            }
            Icon::Wind => "M5 3V17M15 3V17M3 3H7M13 3H17M3 17H7M13 17H17M5 6H15M5 9H15M5 12H15M5 15H15V19L21 21",
            Icon::Bench => "M3 4H21V20H3ZM6 14A6 6 0 0 1 18 14M12 14L15.5 10M6 17H9M15 17H18",
        }
    }
}

/// Draws it; a screen reader passes it over, as its name stands beside it.
#[must_use]
pub fn icon(icon: Icon) -> String {
    format!(
        r#"<svg xmlns="http://www.w3.org/2000/svg" class="icon" viewBox="0 0 24 24" aria-hidden="true" focusable="false"><path d="{}"/></svg>"#,
        icon.lines()
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_icon_is_its_own_and_stays_on_its_sheet() {
        let drawn: std::collections::BTreeSet<String> = Icon::ALL.map(icon).into();
        assert_eq!(drawn.len(), Icon::ALL.len());
        for of in Icon::ALL {
            for number in of.lines().split(|c: char| !c.is_ascii_digit() && c != '.') {
                let Ok(number) = number.parse::<f64>() else { continue };
                assert!((0.0..=24.0).contains(&number), "{of:?}: {number}");
            }
        }
    }
}
