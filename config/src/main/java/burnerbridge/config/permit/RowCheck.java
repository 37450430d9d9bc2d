package burnerbridge.config.permit;

import burnerbridge.config.meaning.MeaningCell;
import burnerbridge.config.register.AccessCell;
import burnerbridge.config.register.OnReadCell;
import burnerbridge.config.type.TypeRanges;
import burnerbridge.config.type.TypeReader;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.Meaning;
import burnerbridge.site.Name;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointOptions;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.Role;
import burnerbridge.site.guard.Guard;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;

/** Whether a row can be permitted at all, whatever the permit says. */
final class RowCheck {
    private static final int LAST_UNIT = 247;
    private static final int DEVICE_ITSELF = 255;
    private static final String PERMITTED = Arrays.stream(Role.values())
            .filter(Role::mayBePermitted)
            .map(Role::word)
            .collect(Collectors.joining(", "));

    private static final String OFF = "off";

    private final PermitRow row;
    private final List<LineDefinition> lines;
    private final List<String> objections = new ArrayList<>();

    RowCheck(PermitRow row, List<LineDefinition> lines) {
        this.row = row;
        this.lines = lines;
    }

    /** Every reason against it, as sentences; where its role is one, that alone, since nothing else would help. */
    List<String> objections() {
        if (row.controller().isGroup()) {
            return List.of(row.point().name() + " of group " + row.controller().name()
                    + " is computed by the bridge, and nothing can be written to a group");
        }
        checkRole();
        if (Guard.isProtected(row.point())) {
            return objections;
        }
        checkRegisters();
        checkReadBack();
        checkSource();
        checkType();
        checkUnit();
        return objections;
    }

    private void object(String why) {
        objections.add(why);
    }

    private void checkRole() {
        Role role = row.role();
        if (!role.mayBePermitted()) {
            object(row.text() + " has the role " + role.word() + ", and only " + PERMITTED
                    + " can be permitted; no key changes that"
                    + (role == Role.LOCKOUT_RESET ? ". A lockout wants a person at the burner" : ""));
        }
        if (Guard.selectsFuel(row.point())) {
            object(row.text() + " says " + Meaning.FUEL.word() + " under " + MeaningCell.COLUMN
                    + ": which fuel is burnt is chosen at the burner, never from here");
        }
        if ((role == Role.ENABLE || role == Role.MODE) && !row.hasStates()) {
            object(row.text() + " has the role " + role.word() + " and must be a bit or have states; it holds "
                    + row.kind());
        }
        if (role == Role.ENABLE) {
            checkOff();
        }
    }

    /** Silence writes number 0 to every enable; where that is no off, it would let a burner run that nobody asks for. */
    private void checkOff() {
        row.point().states().texts().forEach((number, text) -> {
            if (number != 0 && text.equalsIgnoreCase(OFF)) {
                object(row.text() + " has the role enable and says under states that number " + number + " is " + text
                        + "; what is written when nobody asks any more is number 0, which must be that");
            }
        });
    }

    private void checkRegisters() {
        PointDefinition point = row.point();
        if (!row.isWritableTable()) {
            boolean mirrored = point.table() == RegisterTable.INPUT_REGISTER
                    && row.controller().type().rules().mirrored();
            object(row.text() + " cannot be written: no function writes to the table "
                    + point.table().word()
                    + (mirrored ? "; a row that names the same register in the table holding-register could be" : ""));
        }
        if (!row.isEncodable()) {
            object(row.text() + " holds '" + point.format().word()
                    + "', and only numbers, bits and states are ever written");
        }
        point.consistency()
                .scaleBy()
                .ifPresent(by -> object(row.text() + " takes its decimals from " + by
                        + ", which may change between the reading of it and a write"));
        if (point.consistency().lowerWord().isPresent()) {
            object(row.text() + " has its words apart, and no one write takes both");
        }
    }

    private void checkReadBack() {
        PointDefinition point = row.point();
        PointOptions options = point.options();
        if (options.writeOnly()) {
            object(row.text() + " says write under " + AccessCell.COLUMN
                    + ": what is written must be read back, and it cannot be");
        }
        if (point.consistency().once()) {
            object(row.text() + " says " + OnReadCell.CLEARS + " under " + OnReadCell.COLUMN
                    + ": what is written must be read back, and that would clear it");
        }
    }

    private void checkSource() {
        if (row.origin().source().isBlank()) {
            object(row.text() + ", " + row.origin().text()
                    + ", has no source; what may be written must name the page or table of the manual");
        }
    }

    private void checkType() {
        String type = "types." + row.controller().type().name() + ".";
        Optional<Name> identity = row.options().identity();
        if (identity.isEmpty()) {
            object(type + TypeReader.IDENTITY + " is missing: before it writes, the bridge must know one controller"
                    + " from another, by a point like a serial number");
        } else {
            checkIdentity(type, identity.get());
        }
        if (row.options().guarded().isEmpty()) {
            object(type + TypeRanges.PROTECTED
                    + " names nothing: what must never be written has to be said before anything may be");
        }
    }

    /** Two controllers of one kind have one model, and often one firmware. */
    private void checkIdentity(String type, Name identity) {
        row.controller().type().points().stream()
                .filter(point -> point.name().equals(identity))
                .flatMap(point -> point.options().meaning().stream())
                .filter(meaning -> meaning == Meaning.MODEL || meaning == Meaning.FIRMWARE)
                .forEach(meaning -> object(type + TypeReader.IDENTITY + " names " + identity + ", which says "
                        + meaning.word() + " under " + MeaningCell.COLUMN
                        + ": controllers can have that alike; a serial number tells them apart"));
    }

    /** 0 is everybody; 255 is the device itself where nothing lies between it and the bridge. */
    private void checkUnit() {
        int unit = row.controller().unit().number();
        boolean direct = lines.stream()
                .anyMatch(line ->
                        line.name().equals(row.controller().line()) && line.endpoint() instanceof LineDefinition.Tcp);
        if (unit == 0 || (unit > LAST_UNIT && !(direct && unit == DEVICE_ITSELF))) {
            object("unit " + unit + " of line " + row.controller().line()
                    + " is never written: it may be heard by more than one controller");
        }
    }
}
