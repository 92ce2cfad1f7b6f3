### Labels and hints of the screens.
