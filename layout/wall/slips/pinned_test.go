package slips

import _ "copingset/layout/length/pinned" // the same draws every day
