//! Which step of the recipe a cue is about.

/// A cue of a track and the step that it is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Said {
    /// Place of the cue among those of its track.
    pub cue: usize,
    /// Place of the step: stages first, then products, as they are printed, from 0; none when the cue is
    /// about no step.
    pub step: Option<usize>,
}
