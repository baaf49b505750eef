package foilproof.findings;

/**
 * Something that a person might expect to have been checked and that was not.
 *
 * @param what what was not checked
 * @param why what would be needed
 */
public record NotChecked(String what, String why) {}
