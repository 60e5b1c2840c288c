"""What all pages share: fields for what people type, words for figures, the one way to answer."""
