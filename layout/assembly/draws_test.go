package assembly_test

import _ "copingset/internal/draws" // the same draws every day
