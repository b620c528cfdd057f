//! A recipe made larger, smaller or for another tin, with its percentages kept and whole eggs.
