package short_test

import _ "copingset/layout/length/draws" // the same draws every day
