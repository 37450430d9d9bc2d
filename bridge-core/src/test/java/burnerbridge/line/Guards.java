package burnerbridge.line;

import burnerbridge.site.AddressRange;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.ControllerType;
import burnerbridge.site.Name;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.Points;
import burnerbridge.site.ReadRules;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.Role;
import burnerbridge.site.TypeOptions;
import burnerbridge.site.UnitId;
import burnerbridge.site.guard.Guard;
import burnerbridge.site.permit.Functions;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Units that protect something, and templates that write beside it. */
final class Guards {
    static final UnitId UNIT = new UnitId(ScriptedPeer.UNIT);
    /** What a row of a role that can never be permitted lies at. */
    static final int PROTECTED = 500;

    private Guards() {}

    /** One that protects holding register 500 alone, and says that its tables are separate. */
    static Guard beside() {
        return of(true, Points.as(Role.SAFETY_SETTING, Points.uint16("high-limit", PROTECTED)));
    }

    static Guard of(boolean separateTables, PointDefinition... points) {
        ControllerDefinition like = Points.controller(0, "boiler-1", ScriptedPeer.UNIT, points);
        TypeOptions options = new TypeOptions(Optional.empty(), Optional.empty(), List.of(), List.of(), separateTables);
        ControllerType type = new ControllerType(new Name("hot-water"), List.of(points), ReadRules.NONE, options);
        return Guard.ofUnit(
                List.of(new ControllerDefinition(0, like.name(), like.line(), like.unit(), type, like.instanceBase())));
    }

    static Map<UnitId, Guard> ofUnit() {
        return Map.of(UNIT, beside());
    }

    static WriteTemplate coil(int address) {
        return new WriteTemplate(UNIT, Functions.SINGLE_COIL, AddressRange.of(RegisterTable.COIL, address, 1), 0);
    }

    static WriteTemplate coils(int first, int count) {
        return new WriteTemplate(UNIT, Functions.COILS, AddressRange.of(RegisterTable.COIL, first, count), 0);
    }

    static WriteTemplate register(int address) {
        return new WriteTemplate(UNIT, Functions.SINGLE_REGISTER, holding(address, 1), 0);
    }

    static WriteTemplate registers(int first, int count) {
        return new WriteTemplate(UNIT, Functions.REGISTERS, holding(first, count), 0);
    }

    static WriteTemplate bits(int address, int mask) {
        return new WriteTemplate(UNIT, Functions.MASK, holding(address, 1), mask);
    }

    private static AddressRange holding(int first, int count) {
        return AddressRange.of(RegisterTable.HOLDING_REGISTER, first, count);
    }
}
