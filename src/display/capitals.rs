//! What do capitals look like in pixels? Without serifs and with strokes two pixels wide, for eyes three meters away. All
//! other characters come from the font8x8 set.
//!
//! A sans serif is what reading guidance for low sight asks for; the shapes are our own.

/// Rows of a capital, from the top; `#` is ink. Six wide, seven for `M`, `N` and `W`.
pub(crate) fn capital(letter: char) -> Option<&'static [&'static str; 7]> {
    let place = usize::try_from(u32::from(letter).checked_sub(u32::from('A'))?).ok()?;
    CAPITALS.get(place)
}

#[rustfmt::skip]
const CAPITALS: [[&str; 7]; 26] = [
    [" #### ", "##  ##", "##  ##", "##  ##", "######", "##  ##", "##  ##"],
    ["##### ", "##  ##", "##  ##", "##### ", "##  ##", "##  ##", "##### "],
    [" #### ", "##  ##", "##    ", "##    ", "##    ", "##  ##", " #### "],
    ["##### ", "##  ##", "##  ##", "##  ##", "##  ##", "##  ##", "##### "],
    ["######", "##    ", "##    ", "##### ", "##    ", "##    ", "######"],
    ["######", "##    ", "##    ", "##### ", "##    ", "##    ", "##    "],
    [" #### ", "##  ##", "##    ", "## ###", "##  ##", "##  ##", " #### "],
    ["##  ##", "##  ##", "##  ##", "######", "##  ##", "##  ##", "##  ##"],
    [" #### ", "  ##  ", "  ##  ", "  ##  ", "  ##  ", "  ##  ", " #### "],
    ["    ##", "    ##", "    ##", "    ##", "    ##", "##  ##", " #### "],
    ["##  ##", "##  ##", "## ## ", "####  ", "## ## ", "##  ##", "##  ##"],
    ["##    ", "##    ", "##    ", "##    ", "##    ", "##    ", "######"],
    ["##   ##", "### ###", "#######", "## # ##", "##   ##", "##   ##", "##   ##"],
    ["##   ##", "###  ##", "#### ##", "## ####", "##  ###", "##   ##", "##   ##"],
    [" #### ", "##  ##", "##  ##", "##  ##", "##  ##", "##  ##", " #### "],
    ["##### ", "##  ##", "##  ##", "##### ", "##    ", "##    ", "##    "],
    [" #### ", "##  ##", "##  ##", "##  ##", "##  ##", "## ## ", " ## ##"],
    ["##### ", "##  ##", "##  ##", "##### ", "####  ", "## ## ", "##  ##"],
    [" #### ", "##  ##", "##    ", " #### ", "    ##", "##  ##", " #### "],
    ["######", "  ##  ", "  ##  ", "  ##  ", "  ##  ", "  ##  ", "  ##  "],
    ["##  ##", "##  ##", "##  ##", "##  ##", "##  ##", "##  ##", " #### "],
    ["##  ##", "##  ##", "##  ##", "##  ##", "##  ##", " #### ", "  ##  "],
    ["##   ##", "##   ##", "##   ##", "## # ##", "#######", "### ###", "##   ##"],
    ["##  ##", "##  ##", " #### ", "  ##  ", " #### ", "##  ##", "##  ##"],
    ["##  ##", "##  ##", "##  ##", " #### ", "  ##  ", "  ##  ", "  ##  "],
    ["######", "    ##", "   ## ", "  ##  ", " ##   ", "##    ", "######"],
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_capital_has_its_own_shape_in_seven_rows_of_one_width() {
        let all: Vec<_> = ('A'..='Z').map(|letter| capital(letter).expect("a capital")).collect();
        for (i, rows) in all.iter().enumerate() {
            assert!(
                rows.iter().all(|row| row.len() == rows[0].len() && row.len() <= 7),
                "{}",
                rows.join("\n")
            );
            assert!(rows.iter().all(|row| row.contains('#')), "no row is empty: {}", rows.join("\n"));
            assert!(!all[..i].contains(rows), "{}", rows.join("\n"));
        }
        for other in ['a', '@', '[', 'É', '0', '\0'] {
            assert_eq!(capital(other), None);
        }
    }
}
