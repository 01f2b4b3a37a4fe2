package org.rejoin.bridge.feed;

import java.net.InetSocketAddress;

/**
 * What tells one aircraft on the port from another.
 *
 * @param sender address and port it was first heard from
 * @param aircraft which aircraft of that sender, in the words of its format; empty text where it has only one
 */
public record AircraftKey(InetSocketAddress sender, String aircraft) {

    /** For logs and pages; for example "127.0.0.1:40000 17:23:1001". */
    public String label() {
        String address = sender.getAddress() == null
                ? sender.getHostString()
                : sender.getAddress().getHostAddress();
        int zone = address.indexOf('%'); // an interface of this machine, of which a recording knows nothing
        address = zone < 0 ? address : address.substring(0, zone);
        String host = address.indexOf(':') >= 0 ? "[" + address + "]" : address;
        return host + ":" + sender.getPort() + (aircraft.isEmpty() ? "" : " " + aircraft);
    }
}
