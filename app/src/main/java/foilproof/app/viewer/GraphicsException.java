package foilproof.app.viewer;

/** Graphics could not be started or failed; the message says why and what still works. */
public class GraphicsException extends Exception {
    private static final long serialVersionUID = 1L;

    /** With the reason, in words for the person. */
    public GraphicsException(String message) {
        super(message);
    }
}
