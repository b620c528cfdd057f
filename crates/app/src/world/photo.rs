//! A photograph that a recipe names, looked for beside it and nowhere else.

use super::read;
use crate::failure::Failure;
use std::path::Path;

/// What was found under a photograph's name.
#[derive(Debug, PartialEq, Eq)]
pub enum Photo {
    /// Its bytes.
    There(Vec<u8>),
    /// Nothing, or the name is a path that leads elsewhere.
    Absent,
    /// A link to a file that does not lie in the recipe's folder. It is not followed: whoever
    /// publishes a recipe that came with a folder would publish a file of his own without knowing.
    LeadsOutside,
}

/// The photograph of this name beside a recipe.
pub fn beside(folder: &Path, name: &str) -> Result<Photo, Failure> {
    let plain = Path::new(name).file_name().is_some_and(|file| file == name);
    let path = folder.join(name);
    if !plain || !path.is_file() {
        return Ok(Photo::Absent);
    }
    // The folder of "loaf.toml" has the empty path.
    let own = if folder.as_os_str().is_empty() {
        Path::new(".")
    } else {
        folder
    };
    let fault = |error| Failure::world("read", &path, &error);
    let real = path.canonicalize().map_err(fault)?;
    if !real.starts_with(own.canonicalize().map_err(fault)?) {
        return Ok(Photo::LeadsOutside);
    }
    read::whole(&real).map(Photo::There)
}

#[cfg(test)]
mod tests {
    use super::{Photo, beside};

    #[cfg(unix)]
    #[test]
    fn a_link_is_followed_inside_the_folder_and_not_out_of_it() {
        use std::os::unix::fs::symlink;
        let folder = crate::web::tests::folder("photo-link");
        let inner = folder.join("loaf");
        std::fs::create_dir_all(&inner).expect("a folder");
        std::fs::write(folder.join("secret"), "not to be seen").expect("a file");
        std::fs::write(inner.join("cut.jpg"), "crumb").expect("a file");
        symlink(folder.join("secret"), inner.join("way.jpg")).expect("a link");
        symlink(inner.join("cut.jpg"), inner.join("same.jpg")).expect("a link");
        let found = |name: &str| beside(&inner, name).expect("readable");
        assert_eq!(found("way.jpg"), Photo::LeadsOutside);
        assert_eq!(found("cut.jpg"), Photo::There(b"crumb".to_vec()));
        assert_eq!(found("same.jpg"), Photo::There(b"crumb".to_vec()));
        assert_eq!(found("none.jpg"), Photo::Absent);
        assert_eq!(found("../secret"), Photo::Absent);
    }
}
