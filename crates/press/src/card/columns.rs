//! A recipe on large paper: amounts in a third of its width, the method in the other two.

use super::CardSize;
use super::book::begun;
use super::fill::{Wish, fewest, fill, height};
use super::look::{By, Look, MadeUp, Margin, Side, pieces};
use super::unit::{self, Unit};
use crate::pdf::PdfFault;
use crate::pdf::wording::Wording;

/// Settings from the largest type to the smallest.
fn looks(size: CardSize) -> [Look; 3] {
    let look = |type_pt: f64| {
        let edge_mm = 15.0;
        let width = size.size_mm().0 - 2.0 * edge_mm;
        let gutter_mm = 7.0;
        Look {
            size,
            type_pt,
            margin: Margin::Beside(44.0),
            edge_mm,
            foot_mm: 17.0,
            leading: 15.0 / 11.0,
            title_pt: 22.0,
            between: 0.62,
            stretch_pt: 0.0,
            facts: 3,
            left_mm: (width - gutter_mm) / 3.0,
            gutter_mm,
            called: "page",
        }
    };
    [look(11.0), look(10.5), look(10.0)]
}

/// What stands on each page in one setting.
fn in_look(look: Look, wording: &Wording, by: By) -> Result<MadeUp, PdfFault> {
    let blanks = look.blanks();
    let top = [
        unit::title(wording, &blanks),
        unit::before(wording, &blanks),
    ]
    .concat();
    let mut left = unit::amounts(wording, &blanks);
    let mut right = unit::steps(wording, &blanks);
    let after = unit::after(wording, &blanks, true);
    let (narrow, wide) = (look.left_mm, look.right_mm());
    let heights = look.measure(
        wording,
        by,
        &[
            (look.width_mm(), &top),
            (narrow, &left),
            (narrow, &after),
            (wide, &right),
            (wide, &after),
        ],
    )?;
    let head = height(&pieces(&top, &heights[0], 0.0)) + blanks.heading;
    let room = |side: usize| look.room_pt() - if side == 0 { head } else { 0.0 };
    let mut on_left = pieces(&left, &heights[1], 0.0);
    let mut on_right = pieces(&right, &heights[3], 0.0);
    // Notes stand under the amounts where they cost no page, else after the last step.
    let mut noted = on_left.clone();
    noted.extend(pieces(&after, &heights[2], 0.0));
    if fewest(&noted, room) <= fewest(&on_right, room).max(1) {
        on_left = noted;
        left.extend(after);
    } else {
        on_right.extend(pieces(&after, &heights[4], 0.0));
        right.extend(after);
    }
    let most = fewest(&on_left, room).max(fewest(&on_right, room));
    let on = |pieces, units: &[Unit], even| -> Vec<Vec<Unit>> {
        let filled = fill(
            pieces,
            room,
            Wish {
                most,
                even,
                last: 0.0,
            },
        )
        .unwrap_or_default();
        filled
            .into_iter()
            .map(|range| begun(&units[range]))
            .collect()
    };
    let mut columns = (
        // Amounts stand as early as they can, beside the steps that want them or before.
        on(&on_left, &left, 40.0).into_iter(),
        on(&on_right, &right, 2.0).into_iter(),
    );
    let sides = (0..most.max(1))
        .map(|side| Side {
            top: if side == 0 { top.clone() } else { vec![] },
            left: columns.0.next().unwrap_or_default(),
            right: columns.1.next().unwrap_or_default(),
        })
        .collect();
    Ok(MadeUp { look, sides })
}

/// Stages whose amounts stand on a later page than the first of their steps.
fn late(made: &MadeUp, wording: &Wording) -> usize {
    let page_of = |is: &dyn Fn(&Unit) -> bool| {
        let mut sides = made.sides.iter();
        sides.position(|side| side.left.iter().chain(&side.right).any(is))
    };
    let is_late = |stage: &usize| {
        let amounts = page_of(&|unit| unit.kind == "stage" && unit.at == *stage);
        let steps = wording.section_of_stage(*stage).and_then(|section| {
            page_of(&|unit| unit.kind == "step" && unit.headed && unit.section == section)
        });
        amounts
            .zip(steps)
            .is_some_and(|(amounts, steps)| amounts > steps)
    };
    (0..wording.stages()).filter(is_late).count()
}

/// What stands on which page: on the fewest, no amounts after the steps that want them, in the
/// largest type that takes no more.
pub(super) fn make_up(wording: &Wording, size: CardSize, by: By) -> Result<MadeUp, PdfFault> {
    let [largest, smaller @ ..] = looks(size);
    let worth = |made: &MadeUp| (made.sides.len(), late(made, wording));
    let mut best = in_look(largest, wording, by)?;
    for look in smaller {
        if worth(&best) > (1, 0) {
            let made = in_look(look, wording, by)?;
            if worth(&made) < worth(&best) {
                best = made;
            }
        }
    }
    Ok(best)
}
