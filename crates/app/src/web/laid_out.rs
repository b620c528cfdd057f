//! Recipes laid out ready: worked out once, with what their tested bakes teach; the last few are kept.

use crate::cli::work::{Work, on_bytes_for};
use bake::simulate::{Anchored, How};
use recipe::measure::Market;
use recipe::source::Diagnostic;
use std::sync::{Arc, Mutex, OnceLock, PoisonError};

/// A recipe worked out in a kitchen.
pub struct Laid {
    /// What was made of it.
    pub work: Work,
    taught: OnceLock<(Anchored, Vec<Diagnostic>)>,
    quickly: OnceLock<Anchored>,
}

impl Laid {
    /// A recipe that is worked out; its tested bakes are asked when somebody wants to know.
    pub const fn new(work: Work) -> Self {
        Self {
            work,
            taught: OnceLock::new(),
            quickly: OnceLock::new(),
        }
    }

    /// A recipe made from another one, whose bakes teach what holds for it too.
    pub fn like(work: Work, other: &Self) -> Self {
        let laid = Self::new(work);
        let _ = laid.taught.set((other.taught().0.clone(), Vec::new()));
        laid
    }

    /// What its tested bakes teach, and what is to be said about them.
    pub fn taught(&self) -> &(Anchored, Vec<Diagnostic>) {
        self.taught
            .get_or_init(|| taught(&self.work, &How::default()))
    }

    /// What its tested bakes teach as answers and pages ask them, on a coarser section.
    pub fn taught_quickly(&self) -> &Anchored {
        self.quickly
            .get_or_init(|| taught(&self.work, &edit::ledger::happens::other_rooms::how()).0)
    }
}

/// So many are kept.
const MOST: usize = 12;

/// The last few, the newest last.
#[derive(Default)]
pub struct LaidOut(Mutex<Vec<(String, Arc<Laid>)>>);

/// A recipe's text, its kitchen's and its readers.
pub struct Texts<'a> {
    /// Name of the recipe's file.
    pub file: &'a str,
    /// The recipe.
    pub recipe: &'a [u8],
    /// The kitchen's file and its bytes.
    pub kitchen: Option<(String, Vec<u8>)>,
    /// For whose readers.
    pub readers: Option<Market>,
}

impl Texts<'_> {
    /// The same once more.
    pub fn again(&self) -> Self {
        Self {
            kitchen: self.kitchen.clone(),
            ..*self
        }
    }

    /// By what the same question is known again; `more`: what is asked besides.
    pub fn mark(&self, more: &str) -> String {
        let mut all = Vec::new();
        let kitchen = self.kitchen.as_ref();
        let parts = [
            self.recipe,
            kitchen.map_or(&[][..], |(file, _)| file.as_bytes()),
            kitchen.map_or(&[][..], |(_, bytes)| bytes),
            self.readers.map_or("", Market::tag).as_bytes(),
            more.as_bytes(),
        ];
        for part in parts {
            all.extend((part.len() as u64).to_le_bytes());
            all.extend(part);
        }
        super::digest::base64(&all)
    }
}

impl LaidOut {
    /// A recipe as it is laid out; worked out when it is not there yet.
    pub fn of(&self, texts: Texts<'_>) -> Arc<Laid> {
        let mark = texts.mark("");
        self.or_made(mark, || {
            let work = on_bytes_for(texts.file, texts.recipe, texts.kitchen, texts.readers);
            Laid::new(work)
        })
    }

    /// What is kept under a mark, or made now.
    pub fn or_made(&self, mark: String, make: impl FnOnce() -> Laid) -> Arc<Laid> {
        if let Some(laid) = self.kept(&mark) {
            return laid;
        }
        let laid = Arc::new(make());
        let mut all = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        if all.len() >= MOST {
            all.remove(0);
        }
        all.push((mark, laid.clone()));
        laid
    }

    fn kept(&self, mark: &str) -> Option<Arc<Laid>> {
        let mut all = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        let at = all.iter().position(|(own, _)| own == mark)?;
        let kept = all.remove(at);
        let laid = kept.1.clone();
        all.push(kept);
        Some(laid)
    }
}

/// What a recipe's own bakes teach in its kitchen.
fn taught(work: &Work, how: &How) -> (Anchored, Vec<Diagnostic>) {
    let Some(made) = work.made.as_ref().filter(|_| !work.stops()) else {
        return (Anchored::default(), Vec::new());
    };
    let taught = made.taught(&made.kitchen, how);
    (taught.output, taught.diagnostics)
}

#[cfg(test)]
mod tests {
    use super::{LaidOut, MOST, Texts};
    use crate::cli::work::{DEMO_RECIPE, on_bytes};
    use std::sync::Arc;

    fn laid() -> super::Laid {
        let work = on_bytes("bare.toml", b"title = 1", None);
        super::Laid::new(work)
    }

    #[test]
    fn what_was_used_last_stays_and_the_rest_goes() {
        let shelf = LaidOut::default();
        let first = shelf.or_made("first".to_owned(), laid);
        for number in 0..MOST - 1 {
            shelf.or_made(format!("{number}"), laid);
        }
        let again = shelf.or_made("first".to_owned(), || panic!("it is kept"));
        assert!(Arc::ptr_eq(&first, &again));
        shelf.or_made("one more".to_owned(), laid);
        assert!(shelf.kept("0").is_none(), "the one unused for longest goes");
        assert!(shelf.kept("first").is_some());
    }

    #[test]
    fn a_mark_tells_texts_kitchens_and_questions_apart() {
        let texts = |kitchen: Option<(&str, &str)>| Texts {
            file: "loaf.toml",
            recipe: DEMO_RECIPE.as_bytes(),
            kitchen: kitchen.map(|(file, text)| (file.to_owned(), text.as_bytes().to_vec())),
            readers: None,
        };
        let none = texts(None).mark("");
        assert_eq!(none, texts(None).mark(""));
        assert_ne!(none, texts(None).mark("x"));
        let ab = texts(Some(("a", "b"))).mark("");
        assert_ne!(ab, texts(Some(("ab", ""))).mark(""));
        assert_ne!(ab, none);
    }
}
