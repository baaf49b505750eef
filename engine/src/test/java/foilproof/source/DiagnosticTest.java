package foilproof.source;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class DiagnosticTest {
    @Test
    void shouldShowTheLineWithACaretUnderTheTrouble() {
        Diagnostic d = Diagnostic.of(new SourceSpan("a.ngc", 12, 4, 9), "decimal-comma", "A comma in a number.")
                .expecting("Expected a decimal point.")
                .near("X1.25")
                .in("G0 X1,25");
        assertThat(d.render())
                .isEqualTo("a.ngc:12:4: A comma in a number. Expected a decimal point. Nearest valid word: X1.25.\n"
                        + "    G0 X1,25\n       ^^^^^");
    }

    @Test
    void shouldShowNoCaretBeyondAShortenedLine() {
        Diagnostic d = Diagnostic.of(new SourceSpan("a.ngc", 1, 500, 501), "x", "Wrong.")
                .in("short...");
        assertThat(d.render()).doesNotContain("^");
        assertThat(Diagnostic.of(SourceSpan.ofFile("a.ngc"), "x", "Wrong.").render())
                .isEqualTo("a.ngc: Wrong.");
        assertThat(Diagnostic.of(SourceSpan.ofLine("a.ngc", 3), "x", "Wrong.").render())
                .isEqualTo("a.ngc:3: Wrong.");
    }

    @Test // SHA-256 of "abc": FIPS 180-4 example
    void shouldHashTheBytes() {
        assertThat(SourceFile.ofText("a", "abc").sha256())
                .isEqualTo("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    }
}
