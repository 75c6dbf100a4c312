package golden

import _ "copingset/layout/length/draws" // what drawn packets throw away is collected less often
