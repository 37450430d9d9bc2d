package burnerbridge.simulator.demo;

import burnerbridge.simulator.broker.BrokerException;
import burnerbridge.simulator.plant.Boiler;
import burnerbridge.simulator.plant.BoilerState;
import burnerbridge.simulator.plant.fire.Fuel;
import org.eclipse.paho.mqttv5.common.MqttException;

/** Does what a key asks for, and says what to watch. */
final class Visitor {
    /** What the keys do, for the screen. */
    static final String KEYS =
            "keys: 1 2 3 boiler, c cable, l lock out, r reset at the burner, f fuel, b broker, z stand"
                    + " still, ? this again, q end";

    private final Stage stage;

    /** What follows a key. */
    enum Wish {
        GO_ON,
        SHOW_OPENING,
        END
    }

    Visitor(Stage stage) {
        this.stage = stage;
    }

    Wish press(char key) throws BrokerException, MqttException {
        switch (key) {
            case '1', '2', '3' -> stage.choose(key - '1');
            case 'c' -> cable();
            case 'l' -> lockOut();
            case 'r' -> reset();
            case 'f' -> changeFuel();
            case 'b' -> broker();
            case 'z' -> standStill();
            case '?', 'h' -> {
                stage.tell("");
                return Wish.SHOW_OPENING;
            }
            case 'q' -> {
                return Wish.END;
            }
            case '\n', '\r' -> {
                // Where keys need Enter it follows each of them.
            }
            default -> stage.tell("There is no key " + key + ".");
        }
        return Wish.GO_ON;
    }

    private void cable() {
        String name = stage.chosen();
        boolean out = !stage.isCableOut(name);
        stage.pullCable(out);
        stage.tell(
                out
                        ? "The cable of " + name + " is out. Within 10 s its fast points are stale on both sides, with"
                                + " the value they had; the other boilers go on. c puts it back."
                        : "The cable of " + name + " is in again: its points come back with fresh values.");
    }

    private void lockOut() {
        String name = stage.chosen();
        BoilerState state = stage.state(name);
        if (state.lockout()) {
            stage.tell(name + " has locked out: " + state.cause().text() + ". r is the person who resets it.");
        } else if (state.phase().hasFuel()) {
            stage.plant().controller(name).act(Boiler::failFlame);
            stage.tell(
                    "The flame of " + name + " goes out: it locks out. r is the person who resets it at the burner.");
        } else {
            stage.plant().controller(name).act(Boiler::openLimiter);
            stage.tell(
                    "The high limit of " + name + " opens: it locks out. r is the person who resets it at the burner.");
        }
    }

    private void reset() {
        String name = stage.chosen();
        boolean lockedOut = stage.state(name).lockout();
        stage.plant().controller(name).act(Boiler::resetAtTheBurner);
        stage.tell(
                lockedOut
                        ? "Somebody has mended " + name + " and reset it at the burner. The bridge could not: it has no"
                                + " reset and writes nothing."
                        : name + " has not locked out, so there is nothing to reset.");
    }

    private void changeFuel() {
        String name = stage.chosen();
        BoilerState state = stage.state(name);
        if (state.settings().burns().size() < 2) {
            stage.tell(name + " burns gas alone. steam-1 has two fuels: 3, then f.");
            return;
        }
        Fuel other = state.chosen() == Fuel.GAS ? Fuel.OIL : Fuel.GAS;
        stage.plant().controller(name).act(boiler -> boiler.choose(other));
        stage.tell("Somebody turns the fuel switch of " + name + " to " + other.text()
                + ": it ends its operation and starts anew on it.");
    }

    private void broker() throws BrokerException, MqttException {
        if (stage.isBrokerRunning()) {
            stage.stopBroker();
            stage.tell("The broker is stopped: nothing comes over MQTT, and ages grow. The lines and BACnet go on."
                    + " b starts it again.");
        } else {
            stage.startBroker();
            stage.tell("The broker runs again, with nothing in it: the bridge finds it by itself and sends every point"
                    + " anew.");
        }
    }

    private void standStill() {
        boolean still = !stage.isFrozen();
        stage.plant().freeze(still);
        stage.tell(
                still
                        ? "The plant stands still, so that what is read can be compared; it still answers. z lets it run"
                                + " on."
                        : "The plant runs on.");
    }
}
