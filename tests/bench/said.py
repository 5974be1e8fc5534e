"""What the benchmark of listening has said: invented notes as they are dictated, and talk that is no note.

None of `NOTES` and `OTHER_TALK` was looked at while the first thresholds of `notesparse/listening/` were chosen; what
was changed after the first run on them is told in DEVELOPERS.md. `LATER_NOTES` and `LATER_TALK` were written for a
check of those changes, before anything had been heard of them; `LAST_NOTES` and `LAST_TALK`, talk of a farm, for a
check of the leaning of 1.0; `NEWEST_NOTES` and `NEWEST_TALK`, by somebody else, for a check of what the small recogniser
alone refuses.
"""

NOTES: tuple[str, ...] = (
    "plant four, thirteen trifs, top leaf still rolled, open flower at the third node down",
    "plant eight is V six, six trifoliates, no flowers yet",
    "pods three sixteenths of an inch at the second node from the top",
    "plant nine, R five, seed an eighth of an inch on the fourth node down",
    "twenty percent defoliation, mostly bean leaf beetles",
    "plant two, cotyledons still on, unifoliates are unrolled, one trifoliate",
    "seven of ten plants are flowering, the rest have buds",
    "plant eleven, seventeen nodes, pods at the top four nodes, half an inch long",
    "next plant, nine trifs, flowers at the top two nodes",
    "planted May eighteenth, fifteen inch rows, emerged May twenty sixth",
    "waterhemp is four inches tall, about two per square foot",
    "plant fourteen, R six, seeds touching in the top pods",
    "plant six, twelve trifs, no wait, thirteen trifs",
    "one brown pod on plant three, about forty percent of the leaves have dropped",
    "plant ten, V four, top leaf unrolled, hail damage on three leaves",
    "stop two, plant one, sixteen trifs, R three",
    "stink bugs, five per twenty five sweeps",
    "plant seven, pods three quarters of an inch on the third node down, fifteen trifs",
    "frogeye leaf spot on the upper leaves, about ten percent",
    "plant twelve, pods full length, seed a quarter inch",
    "ninety percent of the pods are brown, the field is at R seven",
    "plant five, eighteen trifs, five millimeter pods on the second node",
    "plant thirteen, eight trifs, R two, plant fourteen, seven trifs, R one",
    "soil is dry on top, the canopy is nearly closed",
)

OTHER_TALK: tuple[str, ...] = (
    "Did you remember to lock the back door when we left the house this morning?",
    "She wants to paint the kitchen yellow, but I would rather have it white.",
    "The train was forty minutes late and nobody told us why.",
    "Let us order two pizzas and a salad, I will pay for it this time.",
    "My phone is almost empty, I will call again from the office at nine.",
    "They are showing the old football match again on channel five tonight.",
    "Grandmother turned eighty three last week and still rides her bicycle.",
    "The bank is closed on Monday because of the holiday.",
)

LATER_NOTES: tuple[str, ...] = (
    "plant one, ten trifs, the top one is not open yet, pods on the top four nodes, a quarter inch long",
    "next plant, eight nodes, seven trifoliates, first flower on the sixth node",
    "plant fifteen, R four, pods three quarters of an inch at the third node from the top",
    "bean leaf beetles, twelve per twenty sweeps, fifteen percent defoliation",
    "plant three, V seven, no wait, V eight, cotyledons have dropped",
    "nine of twelve plants are at R two, three still at R one",
    "planted on May fourth, thirty inch rows, maturity group two point eight",
    "plant twenty, seeds fill the pods at the top nodes, two leaves are yellow",
)

LATER_TALK: tuple[str, ...] = (
    "The plumber can come at eleven or at half past two, whichever suits you.",
    "I planted tulips with my sister, and seven of them came up in the spring.",
    "Turn left after six miles and stop at the top of the hill.",
    "He pays fifteen dollars an hour and ten percent more on Sundays.",
)

LAST_NOTES: tuple[str, ...] = (
    "plant one, fourteen trifs, flowers at the top node, no pods yet",
    "next plant, thirteen nodes, pods at the third node down, five eighths of an inch",
    "plant three, R six, beans touching in the pods at the second node from the top",
    "eight of ten plants are at R three, the other two are R two",
    "planted May second, seven and a half inch rows, emerged the eleventh",
    "Japanese beetles, six per plant, ten percent defoliation in the top",
    "plant seven, V six, the seventh trifoliate is still rolled",
    "every pod is brown on plant four, grain moisture is thirteen percent",
)

LAST_TALK: tuple[str, ...] = (
    "The combine needs a new belt and twelve bolts before Thursday.",
    "He sold the lower forty to his nephew for nine thousand an acre.",
    "Put six eggs and a half pound of butter on the list, we are out of both.",
    "There are three deer standing by the gate, and one of them has a big rack.",
    "Is the tank on the sprayer full, or do I have to come back for more water?",
    "My daughter has two games on Saturday, the first one is at ten.",
    "It rained an inch and a half at the airport, but we got nothing at all.",
    "The price of beans went up eleven cents today, corn was down four.",
    "Call the elevator and ask if they are open until seven.",
    "I left my gloves on top of the second fence post from the road.",
    "The roses at the front of the house are in full bloom this week.",
    "You drive the truck, I will open the gate and walk down to the creek.",
)

NEWEST_NOTES: tuple[str, ...] = (
    "plant sixteen, eleven trifoliates open on the main stem, leaf edges of the twelfth are not touching",
    "third plant here, ten nodes, one blossom open at node five from the bottom, nothing higher up",
    "plant eighteen, longest pod in the upper four nodes is seven sixteenths of an inch",
    "beginning seed on plant seventeen, beans are three sixteenths of an inch inside a pod three nodes down",
    "plant nineteen is V nine, R two, blooms on both of the uppermost nodes",
    "fourteen out of twenty plants have reached R three, thirty percent are at full bloom",
    "swept the east side, thirty eight bean leaf beetles and four stink bugs in fifty sweeps",
    "beans went in on April twenty third, twenty inch rows, first seedlings cracking the ground May fifth",
)

NEWEST_TALK: tuple[str, ...] = (
    "The baler ran out of twine twice, so we finished the hay by moonlight.",
    "My neighbor counted fourteen kittens in the barn and wants us to take at least three.",
    "Hail broke two panes in the greenhouse, but the tomatoes came through just fine.",
    "Pick up a quarter inch drill bit and six feet of chain on your way home.",
    "We were down by five at halftime and still won the game by two points.",
    "The sunflowers along the lane are taller than me, and the bees love every one of them.",
    "Our youngest lost her third tooth at supper and asked for five dollars.",
    "Grease the loader at all eight fittings, then park it beside the old corn crib.",
    "They say twenty degrees by morning, so bring the hoses in and let the faucet drip.",
    "The vet charged us ninety dollars to look at one calf for ten minutes.",
    "I drew the seven of hearts again, so deal me four new cards, please.",
    "The green beans in the garden need picking, we should get a dozen jars out of them.",
)
