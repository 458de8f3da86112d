"""Where every line comes from: kits, rack, stock, suppliers."""
