//! What one package's own folder says of its terms: texts, copyright lines, further notices.

use super::expression::alternatives;
use std::path::Path;

/// One package's terms.
pub struct Notice {
    /// Its name.
    pub name: String,
    /// Its version.
    pub version: String,
    /// Its licence expression, as its author wrote it.
    pub expression: String,
    /// The licences we take it under, each with its text; no text means the licence's standard one.
    pub terms: Vec<(&'static str, Option<String>)>,
    /// Copyright lines, as they stand in its texts.
    pub copyright: Vec<String>,
    /// The text of its NOTICE file.
    pub passed_on: Option<String>,
}

/// A file of terms: its name in capitals, and its text.
type Terms = (String, String);

impl Notice {
    /// Reads the folder that cargo's metadata points to.
    ///
    /// # Errors
    /// When the folder cannot be read or its licence is not on the list.
    pub fn read(package: &serde_json::Value) -> Result<Self, String> {
        let word = |key: &str| package[key].as_str().unwrap_or_default().to_owned();
        let (name, expression) = (word("name"), word("license"));
        let manifest = word("manifest_path");
        let folder = Path::new(&manifest)
            .parent()
            .ok_or("a package without a folder")?;
        let files = files(folder)?;
        let mut terms = Vec::new();
        let mut copyright = Vec::new();
        for licence in alternatives(&expression).map_err(|e| format!("{name}: {e}"))? {
            let text = text_of(licence, &files);
            if let Some(text) = &text {
                copyright.extend(copyright_lines(text));
            }
            terms.push((licence, text));
        }
        if let Some((_, text)) = files.iter().find(|(file, _)| file.starts_with("COPYRIGHT")) {
            copyright.extend(copyright_lines(text));
        }
        if copyright.is_empty() {
            let authors = package["authors"].as_array().into_iter().flatten();
            let authors: Vec<&str> = authors
                .filter_map(|a| a.as_str()?.split(" <").next())
                .collect();
            if !authors.is_empty() {
                copyright.push(format!("Copyright: {}", authors.join(", ")));
            }
        }
        copyright.dedup();
        let passed_on = files.iter().find(|(file, _)| file.starts_with("NOTICE"));
        let passed_on = passed_on.map(|(_, text)| text.trim().to_owned());
        Ok(Self {
            name,
            version: word("version"),
            expression,
            terms,
            copyright,
            passed_on,
        })
    }
}

fn files(folder: &Path) -> Result<Vec<Terms>, String> {
    let entries = std::fs::read_dir(folder).map_err(|e| format!("{}: {e}", folder.display()))?;
    let mut found = Vec::new();
    for entry in entries {
        let path = entry.map_err(|e| e.to_string())?.path();
        let name = path
            .file_name()
            .unwrap_or_default()
            .to_string_lossy()
            .to_uppercase();
        let begins = [
            "LICENSE",
            "LICENCE",
            "COPYING",
            "COPYRIGHT",
            "NOTICE",
            "UNLICENSE",
        ];
        if path.is_file() && begins.iter().any(|b| name.starts_with(b)) {
            let bytes = std::fs::read(&path).map_err(|e| format!("{}: {e}", path.display()))?;
            found.push((name, String::from_utf8_lossy(&bytes).replace('\r', "")));
        }
    }
    found.sort();
    Ok(found)
}

/// A phrase that only this licence's text has.
fn mark(licence: &str) -> &'static str {
    match licence {
        "MIT" => "Permission is hereby granted, free of charge, to any person obtaining",
        "Apache-2.0" | "Apache-2.0 WITH LLVM-exception" => {
            "TERMS AND CONDITIONS FOR USE, REPRODUCTION, AND DISTRIBUTION"
        }
        "BSD-2-Clause" | "BSD-3-Clause" => "Redistribution and use in source and binary forms",
        "Zlib" => "provided 'as-is', without any express or implied",
        "Unicode-3.0" => "UNICODE LICENSE V3",
        "BSL-1.0" => "Boost Software License",
        "0BSD" | "ISC" => "Permission to use, copy, modify, and",
        "Unlicense" => "released into the public domain",
        _ => "CC0",
    }
}

/// The text among the files that is this licence's, told by its words and not by the file's name.
fn text_of(licence: &str, files: &[Terms]) -> Option<String> {
    let flat = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
    let theirs = |text: &str| flat(text).contains(mark(licence));
    let file = files
        .iter()
        .find(|(name, text)| !name.starts_with("NOTICE") && theirs(text))?;
    Some(file.1.trim().to_owned())
}

/// The lines of a text that name who holds the rights.
pub fn copyright_lines(text: &str) -> Vec<String> {
    text.lines()
        .map(str::trim)
        .filter(|line| {
            let lower = line.to_lowercase();
            let sign = ["(c) ", "©"].iter().any(|sign| lower.starts_with(sign));
            let year = line.chars().any(|c| c.is_ascii_digit());
            // Clauses and blanks of the licences themselves begin with the same words.
            let word = lower.starts_with("copyright");
            let named = year || (word && (lower.contains("(c)") || line.contains('©')));
            let begins = word || sign;
            begins && named && !line.contains("[yyyy]") && !line.contains("{yyyy}")
        })
        .map(str::to_owned)
        .collect()
}
