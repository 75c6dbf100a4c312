package wind

import _ "copingset/layout/length/pinned" // the same draws every day
