package foilproof.language;

import foilproof.source.SourceFile;

/** Runs a program on paper: text to canonical commands. Stateless. */
public final class Interpreter {
    private Interpreter() {}

    /**
     * Reads and runs a program. Whatever the bytes are, this returns: what is wrong is in
     * {@link Interpretation#errors()}, and the run ends at the first error.
     */
    public static Interpretation interpret(SourceFile program, InterpreterSetup setup) {
        return new ProgramRun(program, setup).run();
    }
}
