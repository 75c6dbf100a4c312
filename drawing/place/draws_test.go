package place

import _ "copingset/internal/draws" // the same draws every day
