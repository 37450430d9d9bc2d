package burnerbridge.permits;

import burnerbridge.control.ControlException;

/** Where permits are shown, approved and withdrawn. One thread uses it; any may close it. */
public interface PermitSource extends AutoCloseable {

    /** @throws ControlException where a running bridge cannot be asked */
    PermitsView view() throws ControlException;

    /**
     * Approves what there is.
     *
     * @param by who approves
     * @param hash of what the person saw
     * @return what was done, in a sentence
     * @throws ControlException where it cannot be approved; nothing was changed
     */
    String approve(String by, String hash) throws ControlException;

    /**
     * Takes the approval back.
     *
     * @return what was done, in a sentence
     * @throws ControlException where it cannot be
     */
    String withdraw(String by) throws ControlException;

    @Override
    void close();
}
