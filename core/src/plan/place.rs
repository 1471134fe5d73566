//! What is on each side of the trainee, so that a direction can be spoken as a place: "toward the window".

use crate::plan::direction::Direction;
use crate::plan::drill::Facing;
use crate::plan::phrase::Phrase;
use crate::words;

/// Something in a room that can be named to a partner. Each has a clip, so that an earbud can say it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Place {
    /// A window.
    Window,
    /// A door.
    Door,
    /// The sink.
    Sink,
    /// The stove.
    Stove,
    /// The refrigerator.
    Refrigerator,
    /// A table.
    Table,
    /// A wall.
    Wall,
    /// A bookcase or a cupboard.
    Cupboard,
    /// The counter.
    Counter,
}

words! {
    Place {
        Window => "window",
        Door => "door",
        Sink => "sink",
        Stove => "stove",
        Refrigerator => "refrigerator",
        Table => "table",
        Wall => "wall",
        Cupboard => "cupboard",
        Counter => "counter",
    }
}

impl Place {
    /// The phrase for the partner: "toward the window".
    pub fn phrase(self) -> Phrase {
        Phrase::own(&format!("toward.{}", self.name()))
    }
}

/// What is on each side of a trainee who faces the counter; `None` if it is not known.
///
/// ```
/// use counterpoise_core::plan::direction::Direction;
/// use counterpoise_core::plan::drill::Facing;
/// use counterpoise_core::plan::place::{Place, Room};
/// let room = Room { left: Some(Place::Window), right: Some(Place::Door), behind: Some(Place::Table) };
/// assert_eq!(room.place_toward(Facing::CounterAhead, Direction::Left), Some(Place::Window));
/// // With the counter at the left, what was behind is at the right.
/// assert_eq!(room.place_toward(Facing::CounterLeft, Direction::Right), Some(Place::Table));
/// assert_eq!(room.place_toward(Facing::CounterLeft, Direction::Forward), Some(Place::Door));
/// assert_eq!(room.place_toward(Facing::CounterAhead, Direction::ForwardLeft), None, "a corner is not a place");
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Room {
    /// What is on the left of a trainee who faces the counter.
    pub left: Option<Place>,
    /// What is on the right.
    pub right: Option<Place>,
    /// What is behind.
    pub behind: Option<Place>,
}

impl Room {
    /// The place toward which this direction goes, for a trainee with this facing; `None` where it is not known, or where
    /// two sides have the same one.
    pub fn place_toward(self, facing: Facing, direction: Direction) -> Option<Place> {
        // Clockwise from above, beginning at the counter.
        let around = [Some(Place::Counter), self.right, self.behind, self.left];
        let ahead = match facing {
            Facing::CounterAhead => 0,
            // Turned to the right, the counter is at the left.
            Facing::CounterLeft => 1,
            Facing::CounterRight => 3,
            Facing::CounterBeside | Facing::WallAhead | Facing::ScreenAhead => return None,
        };
        let turned = match direction {
            Direction::Forward => 0,
            Direction::Right => 1,
            Direction::Back => 2,
            Direction::Left => 3,
            _ => return None,
        };
        let place = around[(ahead + turned) % 4]?;
        (around.iter().filter(|other| **other == Some(place)).count() == 1).then_some(place)
    }
}
