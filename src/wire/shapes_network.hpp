#pragma once
// The part of the table of shapes that speaks of the network; see wire/shapes.hpp, which it goes on from.

#include "wire/network_answer.hpp"
#include "wire/shapes.hpp"

namespace portwright::wire {

template <class V>
void shape(V& v, Of<NetworkPlace> auto& s) {
  v.is("NetworkPlace", "An address that the server listens on, beside this machine's own.");
  v.field("interface", s.interface, "the system's name of the interface");
  v.field("url", s.url, "what a device opens");
  v.field("trouble", s.trouble, "why it cannot be listened on; empty: it is");
}

template <class V>
void shape(V& v, Of<Invitation> auto& s) {
  v.is("Invitation", "A code that lets one device in, once.");
  v.field("digits", s.digits, "to be typed");
  v.field("seconds_left", s.seconds_left, "until it is void [s]");
}

template <class V>
void shape(V& v, Of<NetworkDevice> auto& s) {
  v.is("NetworkDevice", "A device that was let in.");
  v.field("device", s.device, "its number, never given twice");
  v.field("name", s.name, "as its owner named it");
  v.field("role", s.role, "device: looks and adds");
  v.field("paired", s.paired, "when it was let in, UTC");
  v.field("seen", s.seen, "when it was seen last, UTC");
  v.field("from", s.from, "the address it was seen at last");
  v.field("here", s.here, "one of its pages is open now");
}

template <class V>
void shape(V& v, Of<Network> auto& s) {
  v.is("network", "Whether other devices may come in, by which way, and which may.");
  v.field("on", s.on, "devices may come in");
  v.field("seconds_left", s.seconds_left, "until it is off again by itself [s]");
  v.field("off_because", s.off_because, "why it went off by itself; empty: it did not");
  v.field("places", s.places, "addresses that are listened on");
  v.maybe("invitation", s.invitation, "that stands; none: no device can be paired now");
  v.field("wrong_codes", s.wrong_codes, "within the last minute; after five nobody may try");
  v.field("wrong_from", s.wrong_from, "where the last of them came from");
  v.field("devices", s.devices, "that were let in");
  v.field("trouble", s.trouble, "what is wrong with the list of devices; empty: nothing");
}

template <class V>
void shape(V& v, Of<DoNetwork> auto& s) {
  v.is("do-network", "The switch of the network.");
  v.field("on", s.on, "true: devices may come in for twelve hours from now");
  v.may("token", s.token, "of no account here");
  v.may("client", s.client, "the writing window");
}

template <class V>
void shape(V& v, Of<DoRevoke> auto& s) {
  v.is("do-revoke", "A device that is not let in any more.");
  v.field("device", s.device, "its number");
  v.may("token", s.token, "of no account here");
  v.may("client", s.client, "the writing window");
}

template <class V>
void shape(V& v, Of<AnotherBrowser> auto& s) {
  v.is("another-browser", "An address that lets one more browser of this machine in.");
  v.field("address", s.address, "good once");
  v.field("seconds_left", s.seconds_left, "until it is void [s]");
}

template <class V>
void shape(V& v, Of<SheetQr> auto& s) {
  v.is("sheet-qr", "The standing invitation as a QR code.");
  v.field("url", s.url, "one of the addresses that are listened on");
}

template <class V>
void shape(V& v, Of<Pair> auto& s) {
  v.is("pair", "A device that asks to be let in.");
  v.field("code", s.code, "as the machine shows it; blanks in it do not count");
  v.field("name", s.name, "what the device is called, 1 to 40 letters");
}

template <class V>
void shape(V& v, Of<Here> auto& s) {
  v.is("Here", "Who reads an event stream.");
  v.field("role", s.role, "machine: may do everything; device: looks and adds");
  v.field("name", s.name, "of the device; empty: the machine itself");
}

template <class V>
void shape(V& v, Of<KeptDevice> auto& s) {
  v.is("KeptDevice", "A device as it is kept beside the book.");
  v.field("device", s.device, "its number, never given twice");
  v.field("name", s.name, "as its owner named it");
  v.field("hash", s.hash, "SHA-256 of its cookie");
  v.field("paired", s.paired, "when it was let in, UTC");
  v.field("seen", s.seen, "when it was seen last, UTC");
  v.field("from", s.from, "the address it was seen at last");
}

template <class V>
void shape(V& v, Of<KeptDevices> auto& s) {
  v.is("kept-devices", "Devices as they are kept beside the book.");
  v.constant("format", "portwright.devices/1", "form of this file");
  v.field("last", s.last, "number of the newest device ever let in");
  v.field("devices", s.devices, "that may come in");
}

}  // namespace portwright::wire
