package slips

import _ "copingset/internal/draws" // the same draws every day
