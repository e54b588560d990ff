package sprag.supervisor.vocabulary;

/** What each actuator may do in this tick. Written by Logic; the shapers can only stay inside it. */
public final class Permissions {
    /** The negative contactor is to be closed. */
    public boolean negativeClosed;
    /** The precharge relay is to be closed. */
    public boolean prechargeClosed;
    /** The positive contactor is to be closed. */
    public boolean positiveClosed;
    /** The inverter may switch. */
    public boolean inverterEnabled;
    /** What the drive may do. */
    public TorquePermission torque = TorquePermission.NONE;
    /** The direction in which torque drives. */
    public Direction engaged = Direction.NEUTRAL;
    /** Torque or charge current is to be reduced as the temperatures, cells and permits say. */
    public boolean limited;
    /** The chargers may deliver. */
    public boolean charging;
    /** The DC-DC converter may run, where it hangs on the bus. */
    public boolean busConnected;

    /** Starts with nothing permitted. */
    public Permissions() {}

    /** Nothing may do anything. */
    public void forbidAll() {
        negativeClosed = false;
        prechargeClosed = false;
        positiveClosed = false;
        inverterEnabled = false;
        torque = TorquePermission.NONE;
        engaged = Direction.NEUTRAL;
        limited = false;
        charging = false;
        busConnected = false;
    }
}
