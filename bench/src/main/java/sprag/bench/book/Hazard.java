package sprag.bench.book;

/** What can go wrong with the car, and for whom. The same rows as in {@code docs/hazards.md}; a test compares them. */
enum Hazard {
    // @formatter:off
    H01("The car moves, or pulls harder, although nobody asked: a broken pedal wire, two wipers that touch, a pedal trapped under a mat, an inverter that does not obey.", "People in front of, behind and in the car. In a workshop the car may stand against a wall or over a pit."),
    H02("The car moves while a charging cable ties it to the wall.", "Whoever stands by the inlet; the cable, the inlet and the station are torn off live."),
    H03("Torque acts against the chosen direction, or the direction changes while the car rolls.", "Passengers and traffic; the drive line breaks."),
    H04("Drive is lost without warning, or the car brakes suddenly, in traffic. So not every fault may open the contactors, and what limits says so first.", "The driver and whoever drives behind."),
    H05("Traction voltage stands where people expect none: a welded contactor, a bus that does not bleed, parts within reach after a crash or under an open lid.", "Whoever works on the car, the rescuer, the passer-by. Lethal."),
    H06("Insulation between traction voltage and the body is lost: the first fault is silent, the second one shocks or burns.", "Everybody who touches the car and the ground, above all at the inlet. Lethal."),
    H07("A contactor closes onto an uncharged bus or opens under load: an arc, welded contacts, fire in the contactor box.", "Whoever works on the car next; the car itself."),
    H08("The precharge resistor overheats: repeated starts, a loaded bus, a welded relay.", "The car, and what stands near it, by fire."),
    H09("The pack is overcharged, charged cold, discharged too far or loaded too hard, and runs away thermally, at once or days later.", "Everybody in and near the car, the building it is parked in."),
    H10("Cable, inlet or supply circuit carry more than they bear, or the plug is pulled under load and draws an arc.", "Whoever holds the plug; the building's wiring."),
    H11("Motor, inverter, coolant or charger overheat, or the coolant stops flowing.", "The car; steam and burns under the bonnet."),
    H12("The heater's element glows without air over it.", "Passengers, by smoke and fire."),
    H13("The 12 V supply sags or goes: the coils of the contactors chatter or drop, the control dies with the contactors in an unknown state.", "The driver, and whoever works on the welded contactors later."),
    H14("The supervisor decides blindly: a sensor is stale or lies, a tick comes late, the link to the board is down, two judgements differ.", "Everybody the other hazards reach: none of the guards can be relied on."),
    H15("The car energises or drives by itself when power, the loop or the link comes back.", "Whoever has just reached in because it was dead. Lethal."),
    H16("Strong regeneration slows the car and the brake lamps stay dark.", "The driver behind."),
    H17("A spinning permanent-magnet motor drives the bus above what its parts bear, once the contactors are open; or the motor overspeeds.", "The inverter, and whoever is near when its capacitors burst."),
    H18("The car rolls back or rolls away. Regeneration cannot hold a hill; a released pedal is no parking brake.", "Whoever stands below it on the slope.");
    // @formatter:on

    final String happens;
    final String toWhom;

    Hazard(String happens, String toWhom) {
        this.happens = happens;
        this.toWhom = toWhom;
    }
}
