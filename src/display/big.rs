//! How are a few words and an arrow drawn so large that they can be read from three meters? In cells of a buffer, by pure
//! functions.

use ratatui::buffer::Buffer;
use ratatui::layout::{Rect, Size};
use ratatui::text::Line;
use ratatui::widgets::Widget;
use tui_big_text::{BigText, PixelSize};

use super::capitals::capital;
use counterpoise_core::plan::direction::Direction;

/// The four quarters of a cell as one character: upper left 1, upper right 2, lower left 4, lower right 8.
const QUARTERS: [char; 16] = [' ', '▘', '▝', '▀', '▖', '▌', '▞', '▛', '▗', '▚', '▐', '▜', '▄', '▙', '▟', '█'];

/// A letter is eight pixels wide and high (a capital seven: the lowest row is the gap to the next line).
const LETTER: u16 = 8;

/// How large one pixel of a letter is, in quarters of a cell: half columns across, half rows down.
///
/// A cell is about twice as high as wide, so a pixel of 1 by 1 is half as wide as high and one of 2 by 1 square.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Scale {
    across: u16,
    down: u16,
}

impl Scale {
    /// Every scale for a height, largest first. A letter is never wider than square nor narrower than half of that.
    fn within(height: u16) -> impl Iterator<Item = Self> {
        (1..=height / 4)
            .rev()
            .flat_map(|down| (down..=2 * down).rev().map(move |across| Self { across, down }))
    }

    /// Columns of one letter.
    const fn columns(self) -> u16 {
        LETTER / 2 * self.across
    }

    /// Rows of one line.
    const fn rows(self) -> u16 {
        LETTER / 2 * self.down
    }

    /// Height of a capital, in half rows.
    #[cfg(test)]
    const fn capital_half_rows(self) -> u16 {
        (LETTER - 1) * self.down
    }
}

/// Words broken into lines at the largest scale that fits.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Words {
    lines: Vec<String>,
    scale: Scale,
}

impl Words {
    /// The words in the largest letters for this much room; `None` if they do not fit, or a character has no large form.
    /// A word is never cut.
    pub fn fit(words: &str, room: Size) -> Option<Self> {
        if words.trim().is_empty() || !has_large_form(words) {
            return None;
        }
        Scale::within(room.height).find_map(|scale| {
            let lines = whole_words(words, usize::from(room.width / scale.columns()))?;
            (lines.len() <= usize::from(room.height / scale.rows())).then_some(Self { lines, scale })
        })
    }

    /// One line, at the largest scale at which `letters` letters have room: a text that runs, such as a time, keeps its
    /// size while its length changes.
    pub fn line(text: &str, letters: usize, room: Size) -> Option<Self> {
        let letters = letters.max(text.chars().count());
        let is_line = letters > 0 && !text.trim().is_empty() && has_large_form(text);
        let fits = |scale: &Scale| letters <= usize::from(room.width / scale.columns());
        let scale = Scale::within(room.height).find(fits).filter(|_| is_line)?;
        Some(Self { lines: vec![text.to_owned()], scale })
    }

    /// How large a letter is, in quarters of a cell.
    pub const fn letter(&self) -> u16 {
        self.scale.across * self.scale.down
    }

    /// The room they take, in cells.
    pub fn size(&self) -> Size {
        let longest = self.lines.iter().map(|line| line.chars().count() as u16).max().unwrap_or(0);
        Size::new(longest * self.scale.columns(), self.lines.len() as u16 * self.scale.rows())
    }

    /// Draws them in the middle of the area.
    pub fn draw(&self, area: Rect, buffer: &mut Buffer) {
        let top = area.y + area.height.saturating_sub(self.size().height) / 2;
        self.draw_lines(top, area, buffer, |spare| spare / 2);
    }

    fn draw_lines(&self, mut top: u16, area: Rect, buffer: &mut Buffer, indent: fn(u16) -> u16) {
        for line in &self.lines {
            let bits = bitmap(line);
            let size = Size::new(line.chars().count() as u16 * self.scale.columns(), self.scale.rows());
            let left = area.x + indent(area.width.saturating_sub(size.width));
            paint(Rect::new(left, top, size.width, size.height), area, buffer, |x, y| {
                bits[usize::from(y / self.scale.down)][usize::from(x / self.scale.across)]
            });
            top += size.height;
        }
    }
}

/// Several paragraphs, all at one scale, from the top left.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Paragraphs {
    all: Vec<Words>,
    /// Rows between two of them.
    between: u16,
}

impl Paragraphs {
    /// At the largest scale that fits them together, half a line apart or, where that has no room, a quarter or none; `None`
    /// if no scale does, or a character has no large form.
    pub fn fit(texts: &[String], room: Size) -> Option<Self> {
        // Letters of more than eight rows would leave a page of one word.
        Self::within(texts, room, 8)
    }

    /// As [`fit`](Self::fit), in letters of at most `highest` rows.
    pub fn within(texts: &[String], room: Size, highest: u16) -> Option<Self> {
        let texts = || texts.iter().filter(|text| !text.trim().is_empty());
        if !texts().all(|text| has_large_form(text)) {
            return None;
        }
        Scale::within(room.height).filter(|scale| scale.rows() <= highest).find_map(|scale| {
            let lines = |text: &String| whole_words(text, usize::from(room.width / scale.columns()));
            let words = |text| Some(Words { lines: lines(text)?, scale });
            let all: Vec<Words> = texts().map(words).collect::<Option<_>>()?;
            let gaps = [scale.rows() / 2, scale.rows() / 4, 0];
            let mut apart = gaps.map(|between| Self { all: all.clone(), between }).into_iter();
            apart.find(|fit| fit.rows() <= u32::from(room.height))
        })
    }

    /// These lines as they are, blanks within them too, in letters as high as the room at most; all at one scale.
    pub fn lines(lines: &[String], room: Size) -> Option<Self> {
        let letters = lines.iter().map(|line| line.chars().count()).max()?;
        let all = lines.iter().map(|line| Words::line(line, letters, room)).collect::<Option<_>>()?;
        Some(Self { all, between: 0 })
    }

    /// One line of large words.
    pub fn one(words: Words) -> Self {
        Self { all: vec![words], between: 0 }
    }

    /// The rows they take.
    pub fn rows(&self) -> u32 {
        let between = u32::from(self.between) * (self.all.len() as u32).saturating_sub(1);
        self.all.iter().map(|words| u32::from(words.size().height)).sum::<u32>() + between
    }

    /// Draws them.
    pub fn draw(&self, area: Rect, buffer: &mut Buffer) {
        self.draw_from(area.y, area, buffer, |_| 0);
    }

    /// Draws them in the middle of the area.
    pub fn draw_in_the_middle(&self, area: Rect, buffer: &mut Buffer) {
        let top = area.y + area.height.saturating_sub(self.rows() as u16) / 2;
        self.draw_from(top, area, buffer, |spare| spare / 2);
    }

    fn draw_from(&self, mut top: u16, area: Rect, buffer: &mut Buffer, indent: fn(u16) -> u16) {
        for words in &self.all {
            words.draw_lines(top, area, buffer, indent);
            top += words.size().height + self.between;
        }
    }
}

/// Draws an arrow, as large as the area allows, in its middle. What ends at something, such as the ceiling, the floor or
/// a shoulder, ends at a line, which tells up from forward; an arc is drawn round, and what happens in place is a dot.
pub fn arrow(direction: Direction, area: Rect, buffer: &mut Buffer) {
    let rows = area.height.min(area.width / 2);
    if rows == 0 {
        return;
    }
    let square =
        Rect::new(area.x + (area.width - 2 * rows) / 2, area.y + (area.height - rows) / 2, 2 * rows, rows);
    let middle = f32::from(rows);
    // A quarter is half as wide as high: twice as many of them across as down.
    let place =
        |x: u16, y: u16| ((f32::from(x) + 0.5) / (2.0 * middle) - 1.0, (f32::from(y) + 0.5) / middle - 1.0);
    let (toward_x, toward_y, at_line) = match heading(direction) {
        Heading::Straight(x, y) => (x, y, false),
        Heading::ToLine(x, y) => (x, y, true),
        Heading::Round(side) => {
            return paint(square, area, buffer, |x, y| {
                let (x, y) = place(x, y);
                let (x, from_middle) = (x * side, x.hypot(y - 0.3));
                let ring = y <= 0.3 && (0.48..=0.82).contains(&from_middle);
                let head = (0.3..=0.9).contains(&y) && (x - 0.65).abs() <= (0.9 - y) * 0.6;
                ring || head
            });
        }
        Heading::Nowhere => {
            return paint(square, area, buffer, |x, y| {
                let (x, y) = place(x, y);
                x.hypot(y) <= 0.5
            });
        }
    };
    // From corner to corner there is more room than from side to side.
    let slanted = toward_x != 0.0 && toward_y != 0.0;
    let end = if slanted { 1.26 } else { 0.96 };
    let tip = if at_line { 0.71 } else { end };
    paint(square, area, buffer, |x, y| {
        let (x, y) = place(x, y);
        let along = x * toward_x + y * toward_y;
        let aside = (x * toward_y - y * toward_x).abs();
        let shaft = (-end..=tip - 0.8).contains(&along) && aside <= 0.22;
        let head = (tip - 0.9..=tip).contains(&along) && aside <= (tip - along) * 0.9;
        let line = at_line && along > 0.8;
        shaft || head || line
    });
}

/// What an arrow looks like. Numbers are right and down on the screen, of length 1.
enum Heading {
    Straight(f32, f32),
    ToLine(f32, f32),
    /// Half round, from one side over the top to the other: 1 comes down at the right, -1 at the left.
    Round(f32),
    Nowhere,
}

fn heading(direction: Direction) -> Heading {
    use std::f32::consts::FRAC_1_SQRT_2 as SLANT;
    match direction {
        Direction::Forward => Heading::Straight(0.0, -1.0),
        Direction::Back => Heading::Straight(0.0, 1.0),
        Direction::Left => Heading::Straight(-1.0, 0.0),
        Direction::Right => Heading::Straight(1.0, 0.0),
        Direction::ForwardLeft => Heading::Straight(-SLANT, -SLANT),
        Direction::ForwardRight => Heading::Straight(SLANT, -SLANT),
        Direction::BackLeft => Heading::Straight(-SLANT, SLANT),
        Direction::BackRight => Heading::Straight(SLANT, SLANT),
        Direction::Up => Heading::ToLine(0.0, -1.0),
        Direction::Down => Heading::ToLine(0.0, 1.0),
        Direction::LeftShoulder => Heading::ToLine(-1.0, 0.0),
        Direction::RightShoulder => Heading::ToLine(1.0, 0.0),
        Direction::HighLeft => Heading::ToLine(-SLANT, -SLANT),
        Direction::HighRight => Heading::ToLine(SLANT, -SLANT),
        Direction::LowLeft => Heading::ToLine(-SLANT, SLANT),
        Direction::LowRight => Heading::ToLine(SLANT, SLANT),
        Direction::RoundLeft => Heading::Round(-1.0),
        Direction::RoundRight => Heading::Round(1.0),
        Direction::InPlace => Heading::Nowhere,
    }
}

/// Fills `target` (as far as it lies in `clip`) from a function of the quarter's column and row.
pub(super) fn paint(target: Rect, clip: Rect, buffer: &mut Buffer, on: impl Fn(u16, u16) -> bool) {
    for cell in target.intersection(clip).intersection(buffer.area).positions() {
        let (x, y) = (2 * (cell.x - target.x), 2 * (cell.y - target.y));
        let quarters = [on(x, y), on(x + 1, y), on(x, y + 1), on(x + 1, y + 1)];
        let which = quarters.iter().enumerate().map(|(bit, &set)| usize::from(set) << bit).sum::<usize>();
        buffer[cell].set_char(QUARTERS[which]);
    }
}

/// Eight rows of pixels.
fn bitmap(line: &str) -> Vec<Vec<bool>> {
    let mut rows = other_signs(line);
    for (place, rows_of) in
        line.chars().enumerate().filter_map(|(place, letter)| Some((place, capital(letter)?)))
    {
        let at = place * usize::from(LETTER);
        for (row, ink) in rows.iter_mut().zip(rows_of.iter().chain([&""])) {
            row[at..at + usize::from(LETTER)].fill(false);
            for (pixel, ink) in row[at..].iter_mut().zip(ink.bytes()) {
                *pixel = ink == b'#';
            }
        }
    }
    rows
}

/// The characters that are not capitals, as the font8x8 set draws them; eight rows of pixels.
fn other_signs(line: &str) -> Vec<Vec<bool>> {
    let area = Rect::new(0, 0, line.chars().count() as u16 * LETTER, LETTER);
    let mut cells = Buffer::empty(area);
    BigText::builder().lines([Line::from(line)]).pixel_size(PixelSize::Full).build().render(area, &mut cells);
    area.rows()
        .map(|row| row.columns().map(|cell| cells[(cell.x, cell.y)].symbol() != " ").collect())
        .collect()
}

/// Whether every character can be drawn large.
fn has_large_form(words: &str) -> bool {
    words.chars().all(|c| c.is_whitespace() || bitmap(&c.to_string()).iter().flatten().any(|&on| on))
}

/// Lines of whole words, at most `letters` long; `None` when a word is longer than that.
fn whole_words(words: &str, letters: usize) -> Option<Vec<String>> {
    let fits = words.split_whitespace().all(|word| word.chars().count() <= letters);
    fits.then(|| super::words::wrap(words, letters))
}

/// At which scale a word stands in the buffer in large letters, found by its shape.
#[cfg(test)]
pub(super) fn find(word: &str, buffer: &Buffer) -> Option<Scale> {
    let area = buffer.area;
    // The smallest first: most of what is looked for is small.
    let mut scales: Vec<_> = Scale::within(area.height).collect();
    scales.reverse();
    scales.into_iter().find(|&scale| {
        let word = Words { lines: vec![word.to_owned()], scale };
        let size = word.size();
        if size.width > area.width || size.height > area.height {
            return false;
        }
        let shape = Rect::new(0, 0, size.width, size.height);
        let mut wanted = Buffer::empty(shape);
        word.draw(shape, &mut wanted);
        // Ink first: most of a buffer is blank, and tells nothing apart.
        let (ink, blank): (Vec<_>, Vec<_>) =
            shape.positions().partition(|cell| wanted[*cell].symbol() != " ");
        let cells = [ink, blank].concat();
        Rect::new(0, 0, area.width - size.width + 1, area.height - size.height + 1).positions().any(|at| {
            cells.iter().all(|cell| {
                buffer[(at.x + cell.x, at.y + cell.y)].symbol() == wanted[(cell.x, cell.y)].symbol()
            })
        })
    })
}

/// Height of the capitals of a word that stands large in the buffer, in half rows.
#[cfg(test)]
pub(super) fn capitals(word: &str, buffer: &Buffer) -> Option<u16> {
    find(word, buffer).map(Scale::capital_half_rows)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shown(width: u16, height: u16, draw: impl Fn(Rect, &mut Buffer)) -> String {
        let area = Rect::new(0, 0, width, height);
        let mut buffer = Buffer::empty(area);
        draw(area, &mut buffer);
        let row = |y| (0..width).map(|x| buffer[(x, y)].symbol()).collect::<String>().trim_end().to_owned();
        (0..height).map(row).collect::<Vec<_>>().join("\n")
    }

    #[test]
    fn arrows_point_where_the_trainee_should_go() {
        insta::assert_snapshot!(shown(16, 8, |area, buffer| arrow(Direction::Left, area, buffer)), @r#"

            ▗▟▌
          ▄███▌
        ▄█████████████▌
        ▀█████████████▌
          ▀███▌
            ▝▜▌
        "#);
        insta::assert_snapshot!(shown(16, 8, |area, buffer| arrow(Direction::BackRight, area, buffer)), @r#"
        ▄██▄
        ▀████▄
          ▀████▄
            ▀████▄  ▗▟▌
              ▀████▟███
                ▜██████
              ▗▟███████
             ▝▀▀▀▀▀▀▀▀▀
        "#);
        insta::assert_snapshot!(shown(16, 8, |area, buffer| arrow(Direction::Up, area, buffer)), @r#"
        ████████████████
               ▄▄
             ▄████▄
           ▗████████▖
         ▗▟██████████▙▖
              ████
              ████
              ████
        "#);
    }

    #[test]
    fn every_direction_has_its_own_arrow() {
        let drawn = Direction::ALL.iter().map(|to| shown(14, 7, |area, buffer| arrow(*to, area, buffer)));
        let drawn: Vec<String> = drawn.collect();
        for (i, one) in drawn.iter().enumerate() {
            assert!(!one.trim().is_empty());
            assert!(!drawn[..i].contains(one), "{:?}", Direction::ALL[i]);
        }
    }

    /// Left is right in a mirror, forward is back upside down: this fails when the arrow is off its middle.
    #[test]
    fn opposite_arrows_mirror_each_other() {
        type Part = fn(u16, u16) -> bool;
        let count = |to: Direction, part: fn(u16, u16) -> bool| {
            let area = Rect::new(0, 0, 20, 10);
            let mut buffer = Buffer::empty(area);
            arrow(to, area, &mut buffer);
            area.positions().filter(|cell| part(cell.x, cell.y) && buffer[*cell].symbol() != " ").count()
        };
        let (left, right): (Part, Part) = (|x, _| x < 10, |x, _| x >= 10);
        let (top, bottom): (Part, Part) = (|_, y| y < 5, |_, y| y >= 5);
        for (one, its, other, others) in [
            (Direction::Left, left, Direction::Right, right),
            (Direction::ForwardLeft, left, Direction::ForwardRight, right),
            (Direction::BackLeft, left, Direction::BackRight, right),
            (Direction::Forward, top, Direction::Back, bottom),
            (Direction::Up, top, Direction::Down, bottom),
            (Direction::Forward, left, Direction::Forward, right),
        ] {
            assert_eq!(count(one, its), count(other, others), "{one:?} {other:?}");
        }
        assert!(count(Direction::Left, left) > count(Direction::Left, right), "the head is where it points");
        assert!(count(Direction::Forward, top) > count(Direction::Forward, bottom));
    }

    #[test]
    fn words_are_as_large_as_fits_and_never_cut() {
        let rows = |words, width, height| Words::fit(words, Size::new(width, height)).map(|fit| fit.size());
        assert_eq!(rows("LEFT", 80, 24), Some(Size::new(80, 20)));
        assert_eq!(rows("LEFT", 16, 4), Some(Size::new(16, 4)));
        assert_eq!(rows("LEFT", 15, 24), None);
        assert_eq!(rows("LEFT", 80, 3), None);
        assert_eq!(rows("", 80, 24), None);
        assert_eq!(rows("ΩØ文", 80, 24), None, "a sign without a large form is not left out silently");
        let fit = Words::fit("REACH BACKWARD RIGHT", Size::new(64, 12)).expect("fits");
        assert_eq!(fit.lines, ["REACH", "BACKWARD", "RIGHT"]);
    }

    #[test]
    fn letters_look_like_letters() {
        insta::assert_snapshot!(shown(16, 4, |area, buffer| {
            Words::fit("GO", area.as_size()).expect("fits").draw(area, buffer);
        }), @r#"
        ▄█▀▀█▄  ▄█▀▀█▄
        ██ ▄▄▄  ██  ██
        ██  ██  ██  ██
         ▀▀▀▀    ▀▀▀▀
        "#);
    }
}
