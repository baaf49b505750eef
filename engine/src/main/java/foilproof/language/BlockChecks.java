package foilproof.language;

/** Checks what a block asks for as a whole, before any of it runs, and decides which motion goes with it. */
final class BlockChecks {
    private static final int FREE_LETTERS = letters("ABCFSTXYZ");

    private final Controller c;
    private final boolean strict;

    BlockChecks(Controller controller) {
        c = controller;
        strict = controller.setup.dialect() == Dialect.STRICT;
    }

    void check(Block block) throws ProgramException {
        block.motion = -1;
        for (char letter = 'A'; letter <= 'C'; letter++) {
            if (block.has(letter) && block.value(letter) != 0) {
                throw unused(block, letter);
            }
        }
        int nonModal = block.g[Codes.NON_MODAL];
        int length = block.g[Codes.LENGTH];
        boolean axisUser = nonModal == 100 || nonModal == 280 || nonModal == 300 || nonModal == 920 || length == 431;
        if (axisUser) {
            otherAxisUser(block, nonModal, length);
        } else {
            decideMotion(block);
        }
        if (nonModal == 530 && block.motion != 0 && block.motion != 10) {
            throw block.errorAtG("g53", Codes.NON_MODAL, "G53 without a G0 or G1 move")
                    .expecting("Expected G0 or G1 with axis words.");
        }
        if (block.gCount > 0) {
            checkModes(block, nonModal);
        }
        checkLetters(block, nonModal);
    }

    private void otherAxisUser(Block block, int nonModal, int length) throws ProgramException {
        int explicit = block.g[Codes.MOTION];
        if (explicit >= 0 && explicit != 800 || nonModal >= 0 && length == 431 && nonModal != 40) {
            throw block.errorAtG(
                            "axis-words-twice", Codes.NON_MODAL, "two codes on one line that both take the axis words")
                    .expecting("Expected them on lines of their own.");
        }
        if (nonModal == 920 && !block.hasAxis()) {
            throw block.errorAtG("axis-missing", Codes.NON_MODAL, "G92 without axis words")
                    .expecting("Expected X, Y or Z.");
        }
        if (length == 431 && (!block.has('Z') || block.has('X') || block.has('Y'))) {
            throw block.errorAtG("axis-missing", Codes.LENGTH, "G43.1 takes Z alone")
                    .expecting("Expected Z and neither X nor Y.");
        }
    }

    private void decideMotion(Block block) throws ProgramException {
        int explicit = block.g[Codes.MOTION];
        boolean axes = block.hasAxis();
        if (explicit < 0) {
            boolean centre = block.has('I') || block.has('J') || block.has('K');
            if (axes || !strict && centre && Codes.isArc(c.motion)) {
                if (c.motion == 800) {
                    throw block.error("no-motion-mode", "axis words while no motion is in force (G80)")
                            .expecting("Expected G0, G1, G2, G3 or a cycle.");
                }
                block.motion = c.motion;
            }
            return;
        }
        if (explicit == 800) {
            if (axes) {
                throw block.error("no-motion-mode", "axis words on a line with G80")
                        .expecting("Expected no axis words.");
            }
            return;
        }
        if (!axes && (explicit == 0 || explicit == 10)) {
            if (strict) {
                throw block.errorAtG("axis-missing", Codes.MOTION, Codes.nameOfG(explicit) + " without axis words")
                        .expecting("Expected X, Y or Z.");
            }
            return;
        }
        if (!axes && Codes.isProbe(explicit)) {
            throw block.errorAtG("axis-missing", Codes.MOTION, Codes.nameOfG(explicit) + " without axis words")
                    .expecting("Expected X, Y or Z.");
        }
        block.motion = explicit;
    }

    private void checkModes(Block block, int nonModal) throws ProgramException {
        if (nonModal == 40) {
            if (!block.has('P')) {
                throw block.errorAtG("dwell", Codes.NON_MODAL, "G4 without P").expecting("Expected the time: G4 P2.");
            }
            if (block.value('P') < 0) {
                throw block.error("dwell", 'P', "a negative dwell").expecting("Expected P of 0 or more.");
            }
        }
        if (block.g[Codes.LENGTH] == 430 && !block.has('H')) {
            throw block.errorAtG("length-number", Codes.LENGTH, "G43 without H")
                    .expecting("Expected the tool's number: G43 H1.");
        }
        if (c.comp != CutterComp.OFF) {
            checkComp(block, nonModal);
        }
        int turnOn = block.g[Codes.RADIUS_COMP];
        if (turnOn == 410 || turnOn == 420) {
            if (nonModal > 40 || Codes.isCycle(block.motion) || Codes.isProbe(block.motion)) {
                throw block.errorAtG(
                                "comp-origin", Codes.RADIUS_COMP, "radius compensation on a line that it cannot shape")
                        .expecting("Expected G41 or G42 with G0, G1, G2 or G3.");
            }
            int plane = block.g[Codes.PLANE];
            if (plane < 0 ? c.plane != Plane.XY : plane != 170) {
                throw block.errorAtG("comp-plane", Codes.RADIUS_COMP, "radius compensation outside the XY plane")
                        .expecting("Expected G17 first.");
            }
        }
    }

    private void checkComp(Block block, int nonModal) throws ProgramException {
        int comp = block.g[Codes.RADIUS_COMP];
        if (comp == 410 || comp == 420) {
            throw block.errorAtG("comp-twice", Codes.RADIUS_COMP, "radius compensation is on already")
                    .expecting("Expected G40 first.");
        }
        int plane = block.g[Codes.PLANE];
        if (plane == 180 || plane == 190) {
            throw block.errorAtG("comp-plane", Codes.PLANE, "another plane while radius compensation is on")
                    .expecting("Expected G40 first.");
        }
        if (block.g[Codes.UNITS] >= 0 && (block.g[Codes.UNITS] == 200) != (c.units == LengthUnits.INCH)) {
            throw block.errorAtG("comp-units", Codes.UNITS, "a change of units while radius compensation is on")
                    .expecting("Expected G40 first.");
        }
        // G40 on the same line comes first in the order of execution, so that what follows meets no compensation.
        if (comp == 400) {
            return;
        }
        if (block.g[Codes.SYSTEM] >= 0) {
            throw block.errorAtG(
                            "comp-origin", Codes.SYSTEM, "another coordinate system while radius compensation is on")
                    .expecting("Expected G40 first.");
        }
        if (nonModal > 40) {
            throw block.errorAtG(
                            "comp-origin",
                            Codes.NON_MODAL,
                            Codes.nameOfG(nonModal) + " while radius compensation is on")
                    .expecting("Expected G40 first.");
        }
    }

    private void checkLetters(Block block, int nonModal) throws ProgramException {
        int motion = block.motion;
        int rest = block.letters() & ~FREE_LETTERS;
        if (rest == 0) {
            return;
        }
        if (Codes.isArc(motion)) {
            rest &= ~letters("IJKR");
        }
        if (Codes.isCycle(motion)) {
            rest &= ~letters("RL");
            rest &= motion == 820 || motion == 860 || motion == 880 || motion == 890 ? ~letters("P") : -1;
            rest &= motion == 830 || motion == 730 ? ~letters("Q") : -1;
            rest &= motion == 870 ? ~letters("IJK") : -1;
        }
        if (nonModal == 100) {
            rest &= ~letters("LP");
        }
        if (nonModal == 40 || block.g[Codes.PATH] == 640 && !strict) {
            rest &= ~letters("P");
        }
        if (block.g[Codes.RADIUS_COMP] > 400) {
            rest &= ~letters("D");
        }
        if (block.g[Codes.LENGTH] == 430) {
            rest &= ~letters("H");
        }
        if (rest != 0) {
            throw unused(block, (char) ('A' + Integer.numberOfTrailingZeros(rest)));
        }
        boolean twoTimes = nonModal == 40 && (Codes.isCycle(motion) || block.g[Codes.PATH] == 640) && block.has('P');
        if (twoTimes) {
            throw block.error("word-shared", 'P', "P could belong to two codes on this line")
                    .expecting("Expected them on lines of their own.");
        }
    }

    private static ProgramException unused(Block block, char letter) {
        if (letter <= 'C') {
            return block.error(
                            "no-rotary-axis", letter, "a turn about axis " + letter + ", which the bench does not have")
                    .expecting("Expected moves of X, Y and Z.");
        }
        String owner =
                switch (letter) {
                    case 'D' -> "G41 or G42";
                    case 'H' -> "G43";
                    case 'I', 'J', 'K' -> "G2, G3 or G87";
                    case 'L' -> "G10 or a cycle";
                    case 'P' -> "G4, G10, G64 or a cycle with a dwell";
                    case 'Q' -> "G83";
                    default -> "G2, G3 or a cycle";
                };
        return block.error("word-unused", letter, "the word " + letter + " belongs to nothing on this line")
                .expecting("Expected it with " + owner + ".");
    }

    private static int letters(String letters) {
        int bits = 0;
        for (int i = 0; i < letters.length(); i++) {
            bits |= 1 << letters.charAt(i) - 'A';
        }
        return bits;
    }
}
