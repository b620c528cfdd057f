//! What is still to come, laid out from what was done: each step's beginning and end as expected now.

use super::{Done, Manner, Piece, Stands};
use numerics::quantity::{Duration, Range};
use std::collections::BTreeMap;

impl Stands {
    /// When it began or is expected to.
    pub const fn begins(&self) -> Duration {
        match *self {
            Self::Ahead { begins, .. } => begins,
            Self::Running { began, .. } | Self::Over { began, .. } => began,
        }
    }

    /// When it ended or is expected to.
    pub const fn ends(&self) -> Duration {
        match *self {
            Self::Ahead { ends, .. } | Self::Running { ends, .. } => ends,
            Self::Over { ended, .. } => ended,
        }
    }

    /// Whether it is over.
    pub const fn over(&self) -> bool {
        matches!(self, Self::Over { .. })
    }

    /// Whether it was begun and is not over.
    pub const fn running(&self) -> bool {
        matches!(self, Self::Running { .. })
    }
}

/// How it stands with every step now, in the order of `pieces`.
pub fn ahead(pieces: &[Piece], done: &BTreeMap<usize, Done>, now: Duration) -> Vec<Stands> {
    let mut stands: BTreeMap<usize, Stands> = BTreeMap::new();
    for piece in pieces {
        let done = done.get(&piece.number).copied().unwrap_or_default();
        if let Some(began) = done.began.or(done.ended) {
            let it = done.ended.map_or_else(
                || running(piece, &done, began),
                |ended| Stands::Over { began, ended },
            );
            stands.insert(piece.number, it);
        }
    }
    let lasts = |piece: &Piece| {
        let told = done.get(&piece.number).and_then(|done| done.told);
        told.unwrap_or(piece.length).usual
    };
    // What runs past its time ends now at the earliest.
    let end = |stands: &Stands| {
        if stands.over() {
            stands.ends()
        } else {
            later(stands.ends(), now)
        }
    };
    let mut hands = now;
    let mut oven: Vec<(&Piece, Duration, Duration)> = Vec::new();
    for piece in pieces {
        let Some(it) = stands.get(&piece.number) else {
            continue;
        };
        if piece.manner == Manner::Hands {
            hands = later(hands, end(it));
        }
        if piece.oven.is_some() {
            oven.push((piece, it.begins(), end(it)));
        }
    }
    // Whatever can begin first is laid first, so that hands and oven go to whom they would go.
    let mut left: Vec<&Piece> = pieces
        .iter()
        .filter(|piece| piece.manner != Manner::Beside && !stands.contains_key(&piece.number))
        .collect();
    while !left.is_empty() {
        let possible = |piece: &Piece| {
            let mut from = now;
            for before in &piece.after {
                from = later(from, end(stands.get(before)?));
            }
            if piece.manner == Manner::Hands {
                from = later(from, hands);
            }
            Some(oven_free(&oven, piece, from, lasts(piece)))
        };
        let next = left
            .iter()
            .enumerate()
            .filter_map(|(at, piece)| Some((at, possible(piece)?)))
            .min_by(|a, b| a.1.order(b.1));
        let Some((at, begins)) = next else { break };
        let piece = left.remove(at);
        let ends = begins + lasts(piece);
        if piece.manner == Manner::Hands {
            hands = ends;
        }
        if piece.oven.is_some() {
            oven.push((piece, begins, ends));
        }
        let is_over = |number: &usize| stands.get(number).is_some_and(Stands::over);
        let ready = piece.after.iter().all(is_over);
        stands.insert(
            piece.number,
            Stands::Ahead {
                begins,
                ends,
                ready,
            },
        );
    }
    for piece in pieces {
        if stands.contains_key(&piece.number) {
            continue;
        }
        let due = piece.before.and_then(|(on, before)| {
            let on = stands.get(&on)?;
            Some((on.begins() - before, on.over()))
        });
        let (begins, late) = due.unwrap_or((now, true));
        let begins = later(begins, Duration::ZERO);
        let ends = begins + piece.length.usual;
        let ready = late || begins <= now;
        stands.insert(
            piece.number,
            Stands::Ahead {
                begins,
                ends,
                ready,
            },
        );
    }
    pieces.iter().map(|piece| stands[&piece.number]).collect()
}

fn running(piece: &Piece, done: &Done, began: Duration) -> Stands {
    let length = done.told.unwrap_or(piece.length);
    // Readings know of it that more time was wanted.
    let longer = done.told.map_or(done.longer, |_| Duration::ZERO);
    let within = length.range.map(|range| Range {
        low: began + range.low + longer,
        high: began + range.high + longer,
    });
    Stands::Running {
        began,
        ends: began + length.usual + longer,
        within,
    }
}

/// The first moment at which the oven can take a bake: two share it on two racks at one dial.
fn oven_free(
    taken: &[(&Piece, Duration, Duration)],
    piece: &Piece,
    from: Duration,
    lasts: Duration,
) -> Duration {
    let Some((dial, rack)) = &piece.oven else {
        return from;
    };
    let shares = |other: &Piece| {
        other.oven.as_ref().is_some_and(|(other_dial, other_rack)| {
            let near = (*other_dial - *dial).abs().si() <= 0.5;
            near && rack.is_some() && other_rack.is_some() && rack != other_rack
        })
    };
    let mut from = from;
    loop {
        let moved = taken
            .iter()
            .filter(|(other, begins, ends)| {
                !shares(other) && *begins < from + lasts && from < *ends
            })
            .map(|(_, _, ends)| *ends)
            .fold(from, later);
        if moved <= from {
            return from;
        }
        from = moved;
    }
}

/// The step that the cook is at: what his hands do; else what is due and can be begun; else what will be
/// over first; else what comes next. None when everything is over.
pub fn in_hand(pieces: &[Piece], stands: &[Stands]) -> Option<usize> {
    let all = || pieces.iter().zip(stands);
    let first = |wanted: &dyn Fn(&Piece, &Stands) -> bool, by: fn(&Stands) -> Duration| {
        all()
            .filter(|(piece, stands)| wanted(piece, stands))
            .min_by(|a, b| by(a.1).order(by(b.1)))
            .map(|(piece, _)| piece.number)
    };
    let ready = |stands: &Stands| matches!(stands, Stands::Ahead { ready: true, .. });
    first(
        &|piece, stands| piece.manner == Manner::Hands && stands.running(),
        Stands::begins,
    )
    .or_else(|| {
        first(
            &|piece, stands| piece.manner == Manner::Beside && ready(stands),
            Stands::begins,
        )
    })
    .or_else(|| first(&|_, stands| ready(stands), Stands::begins))
    .or_else(|| first(&|_, stands| stands.running(), Stands::ends))
    .or_else(|| first(&|_, stands| !stands.over(), Stands::begins))
}

fn later(one: Duration, other: Duration) -> Duration {
    if other > one { other } else { one }
}
