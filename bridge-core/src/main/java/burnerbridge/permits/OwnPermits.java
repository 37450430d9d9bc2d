package burnerbridge.permits;

import burnerbridge.control.ControlException;
import burnerbridge.site.Site;
import burnerbridge.table.ValueTable;
import burnerbridge.write.ApprovalDesk;
import burnerbridge.write.ApprovalDesk.CannotApproveException;
import java.io.IOException;
import java.util.List;
import java.util.Optional;

/** The permits of a site whose bridge does not run, with what this process reads of it. */
public final class OwnPermits implements PermitSource {
    private final ApprovalDesk desk;
    private final Site site;
    private final ValueTable table;

    public OwnPermits(ApprovalDesk desk, Site site, ValueTable table) {
        this.desk = desk;
        this.site = site;
        this.table = table;
    }

    @Override
    public PermitsView view() {
        return DeskView.of(desk, site, table, List.of());
    }

    @Override
    public String approve(String by, String hash) throws ControlException {
        try {
            desk.approve(by, Optional.of(hash));
            return "approved by " + by + "; the bridge begins with it when it is started";
        } catch (CannotApproveException | IOException e) {
            throw new ControlException(String.valueOf(e.getMessage()), e);
        }
    }

    @Override
    public String withdraw(String by) throws ControlException {
        try {
            boolean stands = view().rows().stream().anyMatch(PermitRow::owed);
            desk.withdraw(by);
            return "withdrawn by " + by + "; nothing is approved any more"
                    + (stands
                            ? ". What a demand left in a controller stays there, since no bridge runs to take it back"
                            : "");
        } catch (IOException e) {
            throw new ControlException(String.valueOf(e.getMessage()), e);
        }
    }

    @Override
    public void close() {
        try {
            desk.close();
        } catch (IOException e) {
            // What was approved or withdrawn is on the disk; what is lost are counts of refusals, of which there are
            // none.
        }
    }
}
