//! How does the slow target look? A large disc on an otherwise empty screen, drawn in quarters of a cell.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

use super::big;

/// How much of the height, or of half the width, the disc takes: at arm's length (60 cm) on a screen 310 mm wide with 24
/// rows it is 46 mm high, 4.4 degrees of sight \[derived\]. Large, so that poor sight keeps it \[judgment\].
const SHARE: u16 = 4;
/// The smallest disc, in rows.
const LEAST: u16 = 2;

/// Draws the disc. `place` is how far it is from the left and from the top, in thousandths of the way that it has; it is
/// always whole.
pub fn draw(place: (u16, u16), area: Rect, buffer: &mut Buffer) {
    let rows = (area.height.min(area.width / 2) / SHARE).max(LEAST).min(area.height).min(area.width / 2);
    if rows == 0 {
        return;
    }
    // In quarters: half columns and half rows. A half column is half as wide as a half row is high.
    let middle = |per_mille: u16, span: u16, size: u16| {
        let way = f32::from(2 * (span - size)) / 1_000.0;
        f32::from(per_mille.min(1_000)) * way + f32::from(size)
    };
    let (across, down) = (middle(place.0, area.width, 2 * rows), middle(place.1, area.height, rows));
    let radius = f32::from(rows);
    big::paint(area, area, buffer, |x, y| {
        let (x, y) = (f32::from(x) + 0.5 - across, f32::from(y) + 0.5 - down);
        (x / 2.0).hypot(y) <= radius
    });
}

#[cfg(test)]
mod tests {
    use super::*;

    fn drawn(x: u16, y: u16, width: u16, height: u16) -> Buffer {
        let area = Rect::new(1, 1, width, height);
        let mut buffer = Buffer::empty(Rect::new(0, 0, width + 2, height + 2));
        draw((x, y), area, &mut buffer);
        buffer
    }

    /// Quarters of ink: how many, and the first and last column and row in quarters.
    fn ink(buffer: &Buffer) -> (usize, [u16; 4]) {
        const UPPER_LEFT: &str = "▘▀▌▛▚▜▙█";
        const UPPER_RIGHT: &str = "▝▀▞▛▐▜▟█";
        const LOWER_LEFT: &str = "▖▌▞▛▄▙▟█";
        const LOWER_RIGHT: &str = "▗▚▐▜▄▙▟█";
        let (mut count, mut bounds) = (0, [u16::MAX, 0, u16::MAX, 0]);
        for cell in buffer.area.positions() {
            let sign = buffer[cell].symbol();
            for (signs, x, y) in
                [(UPPER_LEFT, 0, 0), (UPPER_RIGHT, 1, 0), (LOWER_LEFT, 0, 1), (LOWER_RIGHT, 1, 1)]
            {
                if signs.contains(sign) {
                    let (x, y) = (2 * cell.x + x, 2 * cell.y + y);
                    count += 1;
                    bounds = [bounds[0].min(x), bounds[1].max(x), bounds[2].min(y), bounds[3].max(y)];
                }
            }
        }
        (count, bounds)
    }

    #[test]
    fn the_disc_is_round_and_whole_wherever_it_is() {
        for (width, height) in [(80, 24), (76, 20), (200, 60), (9, 5)] {
            let (full, _) = ink(&drawn(500, 500, width, height));
            for (x, y) in [(0, 0), (1_000, 1_000), (1_000, 0), (666, 111), (9_999, 500)] {
                let buffer = drawn(x, y, width, height);
                let (count, [left, right, top, bottom]) = ink(&buffer);
                assert!(left >= 2 && right < 2 * (width + 1) && top >= 2 && bottom < 2 * (height + 1));
                assert!(count.abs_diff(full) <= full / 20 + 8, "{count} of {full} quarters at {x}, {y}");
                let (wide, high) = (right - left + 1, bottom - top + 1);
                assert!(wide.abs_diff(2 * high) <= 4, "{wide} by {high} half cells");
            }
        }
    }

    #[test]
    fn it_reaches_every_edge_and_moves_by_quarters() {
        let edge = |x, y| ink(&drawn(x, y, 80, 24)).1;
        assert_eq!((edge(0, 500)[0], edge(1_000, 500)[1]), (2, 2 * 81 - 1), "from one side to the other");
        assert_eq!((edge(500, 0)[2], edge(500, 1_000)[3]), (2, 2 * 25 - 1));
        let mut places: Vec<u16> = (0..=1_000).map(|x| edge(x, 500)[0]).collect();
        places.dedup();
        assert!(places.windows(2).all(|pair| pair[1] == pair[0] + 1), "{places:?}");
    }

    #[test]
    fn no_size_breaks_it() {
        for width in 0..12 {
            for height in 0..9 {
                let buffer = drawn(850, 150, width, height);
                let outside = buffer.area.positions();
                let area = Rect::new(1, 1, width, height);
                for cell in outside.filter(|cell| !area.contains(*cell)) {
                    assert_eq!(buffer[cell].symbol(), " ");
                }
            }
        }
    }
}
