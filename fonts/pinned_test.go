package fonts

import _ "copingset/layout/length/pinned" // the same draws every day
