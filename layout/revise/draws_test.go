package revise

import _ "copingset/layout/length/draws" // the same draws every day
