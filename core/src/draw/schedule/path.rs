//! Where the slow target is on the screen: a smooth, unpredictable path, as a function of seed, set and time.
//!
//! The path is a uniform cubic B-spline through points drawn one a second: its position and velocity never jump, it
//! stays where its points are, and it is never faster than the widest step from one point to the next. All in whole
//! numbers, so that every machine draws the same path.

use rand::rngs::ChaCha12Rng;

use super::chance::below;
use super::seed::Seed;
use crate::units::Millis;

/// The time from one point of the path to the next.
pub const EVERY: Millis = Millis(1_000);

/// The edge of the screen, in units of the path, from the middle.
pub const EDGE: i32 = 1_000;

/// The widest step from one point to the next, in units, on each axis: no axis is faster than this a second. Seen from
/// half a meter, half of a 34 cm wide screen is 19 degrees \[derived\], so the target moves at 6 degrees a second at most,
/// far below the 30 or so that smooth following keeps up with \[memory\]; slow, because this is for people of 80
/// \[judgment\].
pub const WIDEST_STEP: i32 = 300;

/// A place on the screen: the middle is 0, 0; right and down count up to [`EDGE`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Spot {
    /// Units to the right of the middle.
    pub x: i32,
    /// Units below the middle.
    pub y: i32,
}

/// The path of one set.
///
/// ```
/// use counterpoise_core::units::Millis;
/// use counterpoise_core::draw::schedule::Seed;
/// use counterpoise_core::draw::schedule::path::{EDGE, Path};
/// let path = Path::new(Seed::from_bytes([7; 32]), 2, Millis(60_000));
/// let spot = path.at(Millis(12_345));
/// assert!(spot.x.abs() <= EDGE && spot.y.abs() <= EDGE);
/// assert_eq!(spot, Path::new(Seed::from_bytes([7; 32]), 2, Millis(60_000)).at(Millis(12_345)));
/// ```
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Path {
    points: Vec<Spot>,
    work: Millis,
}

impl Path {
    /// The path of set `set` of the session of this seed, as long as its work. It begins near the middle.
    pub fn new(seed: Seed, set: u8, work: Millis) -> Self {
        let mut rng = seed.path(set);
        let mut points = vec![Spot { x: 0, y: 0 }];
        while points.len() < (work.0 / EVERY.0) as usize + 4 {
            let last = points[points.len() - 1];
            points.push(Spot { x: step(last.x, &mut rng), y: step(last.y, &mut rng) });
        }
        Self { points, work }
    }

    /// Where the target is, this long after the start of the work. After the end it stays.
    pub fn at(&self, time: Millis) -> Spot {
        let time = time.min(self.work);
        let nth = (time.0 / EVERY.0) as usize;
        let within = i64::from(time.0 % EVERY.0);
        let near = &self.points[nth..nth + 4];
        let axis = |of: fn(&Spot) -> i32| {
            spline([of(&near[0]), of(&near[1]), of(&near[2]), of(&near[3])].map(i64::from), within)
        };
        Spot { x: axis(|spot| spot.x), y: axis(|spot| spot.y) }
    }
}

/// One step of one axis: drawn evenly among those that are not too wide and stay on the screen.
fn step(from: i32, rng: &mut ChaCha12Rng) -> i32 {
    let least = (from - WIDEST_STEP).max(-EDGE);
    let most = (from + WIDEST_STEP).min(EDGE);
    least + below(rng, u64::from((most - least) as u32) + 1) as i32
}

/// The uniform cubic B-spline over four points, `t` thousandths of the way from the second to the third.
fn spline(points: [i64; 4], t: i64) -> i32 {
    let one = i64::from(EVERY.0);
    let rest = one - t;
    let weights = [
        rest * rest * rest,
        3 * t * t * t - 6 * t * t * one + 4 * one * one * one,
        3 * rest * rest * rest - 6 * rest * rest * one + 4 * one * one * one,
        t * t * t,
    ];
    let sum: i64 = points.iter().zip(weights).map(|(point, weight)| point * weight).sum();
    // The weights add up to 6 x 1000^3; rounded to the nearest.
    let whole = 6 * one * one * one;
    (sum + whole / 2).div_euclid(whole) as i32
}

#[cfg(test)]
mod tests {
    use super::*;

    const WORK: Millis = Millis(120_000);

    fn paths() -> impl Iterator<Item = Path> {
        (0..40).map(|i| Path::new(Seed::from_bytes([71; 32]).of_session(i), 1 + (i % 3) as u8, WORK))
    }

    #[test]
    fn the_weights_of_the_spline_are_those_of_the_textbook() {
        // At a knot 1/6, 4/6, 1/6 and at the middle 1/48, 23/48, 23/48, 1/48 (de Boor, A Practical Guide to Splines)
        // [memory]. Points of 48,000 give whole numbers.
        assert_eq!(spline([48_000, 0, 0, 0], 0), 8_000);
        assert_eq!(spline([0, 48_000, 0, 0], 0), 32_000);
        assert_eq!(spline([0, 0, 48_000, 0], 500), 23_000);
        assert_eq!(spline([48_000, 0, 0, 0], 500), 1_000);
        assert_eq!(spline([700, 700, 700, 700], 123), 700);
    }

    #[test]
    fn the_target_never_leaves_the_screen_and_is_never_too_fast() {
        for path in paths() {
            let mut before = path.at(Millis(0));
            for time in (10..=WORK.0).step_by(10) {
                let spot = path.at(Millis(time));
                assert!(spot.x.abs() <= EDGE && spot.y.abs() <= EDGE, "{spot:?} at {time}");
                // In 10 ms at most a hundredth of the widest step, and one unit of rounding.
                let most = WIDEST_STEP / 100 + 1;
                let (x, y) = ((spot.x - before.x).abs(), (spot.y - before.y).abs());
                assert!(x <= most && y <= most, "{x} and {y} at {time}");
                before = spot;
            }
        }
    }

    #[test]
    fn the_path_is_smooth() {
        for path in paths() {
            let speed = |time: u32| path.at(Millis(time + 100)).x - path.at(Millis(time)).x;
            for time in (0..WORK.0 - 200).step_by(20) {
                // The velocity of a spline of steps of at most 300 changes by at most 600 a second a second.
                let change = (speed(time + 100) - speed(time)).abs();
                assert!(change <= 600 / 100 + 2, "{change} at {time}");
            }
        }
    }

    #[test]
    fn it_goes_everywhere_and_not_the_same_way_twice() {
        let mut corners = [false; 4];
        for path in paths() {
            for time in (0..WORK.0).step_by(500) {
                let spot = path.at(Millis(time));
                if spot.x.abs() > EDGE / 2 && spot.y.abs() > EDGE / 2 {
                    corners[usize::from(spot.x > 0) + 2 * usize::from(spot.y > 0)] = true;
                }
            }
        }
        assert_eq!(corners, [true; 4]);
        let first = Path::new(Seed::from_bytes([72; 32]), 1, WORK);
        assert_ne!(first, Path::new(Seed::from_bytes([72; 32]), 2, WORK), "each set has its own");
        assert_eq!(first.at(WORK), first.at(Millis(WORK.0 + 60_000)), "after the end it stays");
    }
}
