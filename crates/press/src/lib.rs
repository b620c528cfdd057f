//! What goes out: the ledger's strings arranged for page, card, bench sheet, text and machine.
