package minimax

import _ "copingset/layout/length/pinned" // the same draws every day
