package foilproof.language;

import static foilproof.language.Listing.common;
import static foilproof.language.Listing.run;
import static foilproof.language.Listing.strict;
import static org.assertj.core.api.Assertions.assertThat;

import foilproof.source.Diagnostic;
import foilproof.source.SourceFile;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** Line grammar and limits: NISTIR 6556 section 3.3 and appendix E; rows L1 to L20 of the check values. */
class GrammarTest {
    private static void accepted(String... lines) {
        assertThat(run(strict(), lines).interpretation().errors())
                .as(String.join(" | ", lines))
                .isEmpty();
    }

    private static void refused(String code, String... lines) {
        assertThat(run(strict(), lines).errorCodes())
                .as(String.join(" | ", lines))
                .containsExactly(code);
    }

    @Test // L1: section 3.3, appendix E
    void shouldRefuseItemsOutOfTheOrderOfALine() {
        accepted("/N10 G0 X1 (a) #3=2");
        refused("line-number", "G0 N10 X1");
        refused("block-delete", "N10 /G0 X1");
        refused("unknown-character", "G0 X1 !");
    }

    @Test // L2: section 3.3
    void shouldAcceptLinesOf256CharactersAndRefuse257() {
        String line = "G0 X1 (" + "a".repeat(248) + ")";
        assertThat(line).hasSize(256);
        accepted(line);
        refused("line-too-long", line + " ");
        assertThat(run(common(), line + " ").errorCodes()).isEmpty();
    }

    @Test // L3 and C01: section 3.3
    void shouldIgnoreWhiteSpaceAndCase() {
        assertThat(run(strict(), "g0x +0. 12 34y 7").motions()).containsExactly("T(0.1234,7,0)");
        assertThat(run(strict(), "", " \t", "G0 X+0.1234 Y7").motions()).containsExactly("T(0.1234,7,0)");
        assertThat(run(strict(), "g0 x s i n [ 30 ]").motions()).containsExactly("T(0.5,0,0)");
    }

    @Test // L4: section 3.3.1
    void shouldTakeLineNumbersOfUpToFiveDigits() {
        accepted("N00009 G0 X1", "N00009 G0 X2", "N3");
        refused("line-number", "N000009 G0 X1");
        refused("line-number", "N G0 X1");
        assertThat(run(common(), "N000009 G0 X1", "N1234567 X2").errorCodes()).isEmpty();
    }

    @Test // L5: table 3, appendix E.3
    void shouldRefuseLettersThatAreNotInTheLanguage() {
        for (String letter : List.of("E", "O", "U", "V", "W")) {
            refused("unknown-word", letter + "1");
        }
        accepted("G0 X1 Y1 Z1 F1 S1 T1 A0 B0 C0");
        refused("no-rotary-axis", "G0 A10");
    }

    @Test // L6: section 3.3.2.1
    void shouldReadNumbersAsPublished() {
        assertThat(run(strict(), "G0 X.5 Y5. Z-0.8807").motions()).containsExactly("T(0.5,5,-0.8807)");
        refused("number-missing", "G0 X.");
        refused("unknown-word", "G0 X1e3");
        refused("number", "G0 X1.2.3");
        CanonicalProgram digits = run(strict(), "G0 X0.12345678901234567 Y123456789.123456789 Z0.1")
                .commands();
        assertThat(digits.size()).isZero();
        CanonicalProgram near = run(strict(), "G0 X0.12345678901234567 Y1234.123456789012345678")
                .commands();
        assertThat(near.programEnd(0, 0)).isEqualTo(0.12345678901234567);
        assertThat(near.programEnd(0, 1)).isEqualTo(1234.123456789012345678);
    }

    @Test // L7: section 3.3.2.1
    void shouldTakeNearIntegersForCodesAndIndexes() {
        assertThat(run(strict(), "M3.00005").commandsFromLine(1)).containsExactly("SPINDLE_CLOCKWISE");
        refused("unknown-m", "M3.001");
        assertThat(run(strict(), "G1.000005 X1 F1").motions()).containsExactly("F(1,0,0)");
        refused("unknown-g", "G1.01 X1");
    }

    @Test // L8: section 3.3.2.2
    void shouldBindTheParameterMarkTighterThanAnyOperator() {
        assertThat(run(strict(), "#1=4 #3=9", "G0 X[#1+2] Y#[1+2]").motions()).containsExactly("T(6,9,0)");
        assertThat(run(strict(), "#1=2 #2=0.375", "G0 X##1").motions()).containsExactly("T(0.375,0,0)");
        refused("parameter-number", "G0 X#0");
        refused("parameter-number", "G0 X#5400");
        refused("parameter-number", "#1.5=2");
    }

    @Test // L9: section 3.3.2.3
    void shouldRankOperatorsInThreeGroups() {
        assertThat(run(strict(), "G0 X[2.0 / 3 * 1.5 - 5.5 / 11.0] Y[2**3**2]").motions())
                .containsExactly("T(0.5,64,0)");
    }

    @Test // L10 and A1 (divisions and domains decided as errors)
    void shouldRoundDownAndUpTowardsInfinity() {
        assertThat(run(strict(), "G0 X FIX[2.8] Y FIX[-2.8]", "G0 X FUP[2.8] Y FUP[-2.8]")
                        .motions())
                .containsExactly("T(2,-3,0)", "T(3,-2,0)");
        refused("function", "G0 X ATAN[1]");
        for (String bad : List.of(
                "[1/0]",
                "SQRT[-1]",
                "LN[0]",
                "ASIN[1.1]",
                "ACOS[-2]",
                "[1 MOD 0]",
                "[0**[-1]]",
                "[[-8]**0.5]",
                "EXP[1000]")) {
            refused("arithmetic", "G0 X" + bad);
        }
        assertThat(run(strict(), "G0 X[-7 MOD 4] Y ROUND[0.5] Z ROUND[-0.5]").motions())
                .containsExactly("T(1,1,-1)");
    }

    @Test // L12 and C11, C12: sections 3.3.3 and 3.3.6
    void shouldSetParametersAfterEveryValueOfTheLineIsFound() {
        assertThat(run(strict(), "#3=15", "#3=6 G1 F100 x#3", "x#3").motions())
                .containsExactly("F(15,0,0)", "F(6,0,0)");
        assertThat(run(strict(), "#3=15 #3=6", "G0 X#3").motions()).containsExactly("T(6,0,0)");
        assertThat(run(strict(), "#3=6 #3=15", "G0 X#3").motions()).containsExactly("T(15,0,0)");
    }

    @Test // C13 and C14: appendix C.2
    void shouldReadParametersIndirectlyAndBeforeTheyAreSet() {
        assertThat(run(strict(), "#1=2", "##1 = 0.375", "G0 x #2").motions()).containsExactly("T(0.375,0,0)");
        assertThat(run(strict(), "#3=7", "G0 #3=5.0 x #3", "x #3 #3=1.1", "x #3")
                        .motions())
                .containsExactly("T(7,0,0)", "T(5,0,0)", "T(1.1,0,0)");
    }

    private static void value(String expression, String expected) {
        assertThat(run(strict(), "G0 X" + expression).motions())
                .as(expression)
                .containsExactly("T(" + expected + ",0,0)");
    }

    @Test // C15 and C16: appendix C.2
    void shouldEvaluateTheExpressionsOfTheReport() {
        value("[1 --3]", "4");
        value("[2/5]", "0.4");
        value("[15 MOD 4.0]", "3");
        value("[1 + 2 * 3 - 4 / 5]", "6.2");
        value("[2 ** 3.0]", "8");
        value("[0 OR 0]", "0");
        value("[0 OR 1]", "1");
        value("[2 OR 2]", "1");
        value("[0 AND 0]", "0");
        value("[0 AND 1]", "0");
        value("[2 AND 2]", "1");
        value("[0 XOR 0]", "0");
        value("[0 XOR 1]", "1");
        value("[2 XOR 2]", "0");
    }

    @Test // C17: appendix C.2; 60.0007 by an independent route
    void shouldEvaluateTheFunctionsOfTheReportInDegrees() {
        value("sin[30]", "0.5");
        value("cos[0.0]", "1");
        value("tan[60.0]", "1.7321");
        value("sqrt[3]", "1.7321");
        value("atan[1.7321]/[1.0]", "60.0007");
        value("asin[1.0]", "90");
        value("acos[0.707107]", "45");
        value("exp[2.3026]", "10.0001");
        value("ln[10.0]", "2.3026");
        value("abs[-2.5]", "2.5");
    }

    @Test // C18: appendix C.2
    void shouldRoundAsTheReportLists() {
        String[] in = {"-0.499", "-0.5001", "2.444", "9.975"};
        String[] round = {"0", "-1", "2", "10"};
        String[] fix = {"-1", "-1", "2", "9"};
        String[] fup = {"0", "0", "3", "10"};
        for (int i = 0; i < in.length; i++) {
            value("round[" + in[i] + "]", round[i]);
            value("fix[" + in[i] + "]", fix[i]);
            value("fup[" + in[i] + "]", fup[i]);
        }
    }

    @Test // L13 and C40: sections 3.3.4 and 3.3.5
    void shouldUseOnlyTheLastCommentAndKnowMessages() {
        assertThat(run(strict(), "(a) G0 X1 (b)").commandsFromLine(1)).containsExactly("COMMENT(b)", "T(1,0,0)");
        assertThat(run(strict(), "( m S g , hi)").commandsFromLine(1)).containsExactly("MESSAGE( hi)");
        refused("comment-nested", "(a (b))");
        refused("comment-open", "G0 X1 (b");
        refused("comment-open", "G0 X1 b)".replace("b", ""));
    }

    @Test // L14 and C39: section 3.3.5
    void shouldRefuseRepeatsOfLettersAndGroups() {
        refused("word-twice", "G0 X1 X2");
        refused("modal-group", "G0 G1 X1");
        refused("modal-group", "M3 M5");
        refused("five-m", "M3 M6 M8 M48 M0");
        refused("modal-group", "G17 G18");
        accepted("T1 M3 M6 M8 M0");
    }

    @Test // L15: section 3.3.6
    void shouldGiveOneResultForAll120OrdersOfALine() {
        List<String> items = List.of("g40", "g1", "#3=15", "(foo)", "#4=-7.0");
        Set<List<String>> results = new HashSet<>();
        int orders = 0;
        for (List<String> order : permutations(items)) {
            Listing listing = run(common(), "f100 " + String.join(" ", order), "x#3 y#4");
            assertThat(listing.errorCodes()).isEmpty();
            results.add(listing.commandsFromLine(1));
            orders++;
        }
        assertThat(orders).isEqualTo(120);
        assertThat(results).hasSize(1);
    }

    private static List<List<String>> permutations(List<String> items) {
        if (items.isEmpty()) {
            return List.of(List.of());
        }
        List<List<String>> all = new ArrayList<>();
        for (int i = 0; i < items.size(); i++) {
            List<String> rest = new ArrayList<>(items);
            String first = rest.remove(i);
            for (List<String> tail : permutations(rest)) {
                List<String> one = new ArrayList<>(List.of(first));
                one.addAll(tail);
                all.add(one);
            }
        }
        return all;
    }

    private static Interpretation file(Dialect dialect, String text) {
        return Interpreter.interpret(
                SourceFile.ofText("p.ngc", text),
                InterpreterSetup.builder()
                        .dialect(dialect)
                        .initialUnits(LengthUnits.MM)
                        .build());
    }

    private static List<String> codes(Interpretation interpretation) {
        return interpretation.errors().stream().map(Diagnostic::code).toList();
    }

    @Test // L16: section 3.1, appendix A.1
    void shouldEndAtTheSecondPercentSign() {
        Interpretation both = file(Dialect.STRICT, "\n % \nG0 X1\n%\ngarbage here\n");
        assertThat(codes(both)).isEmpty();
        assertThat(both.end()).isEqualTo(Interpretation.End.PERCENT);
        assertThat(codes(file(Dialect.STRICT, "%\nG0 X1\n"))).containsExactly("program-end-missing");
        assertThat(codes(file(Dialect.STRICT, "G0 X1\n"))).containsExactly("program-end-missing");
        assertThat(codes(file(Dialect.STRICT, "G0 X1\nM2\n"))).isEmpty();
        assertThat(codes(file(Dialect.STRICT, "G0 X1\n%\n"))).containsExactly("percent");
        Interpretation open = file(Dialect.COMMON, "%\nG0 X1\n");
        assertThat(codes(open)).isEmpty();
        assertThat(open.notes(NoteKind.PROGRAM_END_MISSING)).hasSize(1);
    }

    @Test // L17: section 2.2.2
    void shouldSkipSlashedLinesOnlyWhereTheSwitchIsOn() {
        assertThat(run(strict(), "/G1 F1 X1").motions()).containsExactly("F(1,0,0)");
        assertThat(run(strict().blockDelete(true), "/G1 F1 X1", "/ garbage").motions())
                .isEmpty();
        assertThat(run(strict().blockDelete(true), "/G1 F1 X1").interpretation().notes(NoteKind.BLOCK_DELETE))
                .hasSize(1);
    }

    @Test // L18: sections 3.1 and 5.1.3
    void shouldNotReadAfterTheProgramEnd() {
        Interpretation ended = file(Dialect.STRICT, "G0 X1\nM2\n\u0000garbage ((\n");
        assertThat(codes(ended)).isEmpty();
        assertThat(ended.end()).isEqualTo(Interpretation.End.PROGRAM_END);
        assertThat(ended.lastLine()).isEqualTo(2);
        assertThat(codes(file(Dialect.STRICT, "G0 X1\nM30\n?\n"))).isEmpty();
    }

    @Test // L19: section 3.2, table 2
    void shouldKeepOriginsInTheirParameters() {
        InterpreterSetup.Builder setup = strict();
        for (int system = 1; system <= 9; system++) {
            setup.origin(system, system, 0, 0);
        }
        assertThat(run(setup, "G0 X#5220 Y#5221 Z#5241", "X#5261 Y#5281 Z#5301", "X#5321 Y#5341 Z#5361", "X#5381")
                        .motions())
                .containsExactly("T(1,1,2)", "T(3,4,5)", "T(6,7,8)", "T(9,7,8)");
        assertThat(run(strict().parameter(5220, 1.5), "G0 X1").errorCodes()).containsExactly("parameter-5220");
        assertThat(run(strict().parameter(5220, 10), "G0 X1").errorCodes()).containsExactly("parameter-5220");
        assertThat(run(strict().home28(1, 2, 3).home30(4, 5, 6), "G0 X#5161 Y#5162 Z#5163", "X#5181 Y#5182 Z#5183")
                        .motions())
                .containsExactly("T(1,2,3)", "T(4,5,6)");
    }

    @Test // L20: tables 1 and B.5.4
    void shouldRefuseToolNumbersBeyondTheSlots() {
        accepted("T68");
        refused("tool-number", "T69");
        refused("tool-number", "T1.5");
        refused("tool-number", "T-1");
    }

    @Test // C06: NISTIR 6556 table 10
    void shouldSayWhichWordIsUnknownAndWhichIsNear() {
        Diagnostic error =
                run(strict(), "g1 x asim[0.5]").interpretation().errors().get(0);
        assertThat(error.message()).isEqualTo("Unknown word starting with a.");
        assertThat(error.nearest()).isEqualTo("asin");
        assertThat(error.span().line()).isEqualTo(1);
        assertThat(error.span().column()).isEqualTo(6);
        assertThat(error.render()).contains("g1 x asim[0.5]\n         ^^^^");
    }

    @Test // C48: section 3.3, tables 5 and 7
    void shouldRefuseInTheStrictLanguageWhatOnlyTheCommonOneHas() {
        refused("unknown-character", "G1 X5 ; note");
        refused("unknown-g", "G73 X1 Y1 Z-1 R1 Q0.1");
        refused("unknown-g", "G91.1");
        refused("unknown-g", "G90.1");
        refused("unknown-g", "G43.1 Z1");
        refused("unknown-g", "G38.3 Z1");
        refused("unknown-m", "M98");
        refused("word-unused", "G64 P0.01");
        refused("g10", "G10 L20 P1 X0");
        assertThat(run(common(), "M98").errorCodes()).containsExactly("unknown-m");
        assertThat(run(common(), "O100 sub").errorCodes()).containsExactly("unknown-word");
    }

    @Test // C33: section 3.5
    void shouldTakeExpressionsForCodes() {
        assertThat(run(strict(), "G[2*5] L[1+1] P1 x3", "G0 X0")
                        .commands()
                        .endMm(run(strict(), "G10 L2 P1 x3", "G0 X0").commands().size() - 1, 0))
                .isEqualTo(3);
    }

    @Test // section 3.3: items with no owner on the line
    void shouldRefuseWordsThatBelongToNothing() {
        refused("word-unused", "G0 X1 I2");
        refused("word-unused", "G0 X1 D1");
        refused("word-unused", "G0 X1 H1");
        refused("word-unused", "G0 X1 L1");
        refused("word-unused", "G0 X1 P1");
        refused("word-unused", "G0 X1 Q1");
        refused("word-unused", "G0 X1 R1");
        refused("word-unused", "G40 D1");
    }
}
