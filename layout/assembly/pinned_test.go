package assembly_test

import _ "copingset/layout/length/pinned" // the same draws every day
