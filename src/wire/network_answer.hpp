#pragma once
// The network side of the server as plain data: who may come in from outside, and what is kept of it on the disk.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace portwright::wire {

/// An address that the server listens on, beside this machine's own.
struct NetworkPlace {
  std::string interface = {};
  std::string url = {};
  std::string trouble = {};
};

/// A code that lets one device in, once.
struct Invitation {
  std::string digits = {};
  std::int64_t seconds_left = 0;
};

/// A device that was let in.
struct NetworkDevice {
  std::int64_t device = 0;
  std::string name = {};
  std::string role = {};
  std::string paired = {};
  std::string seen = {};
  std::string from = {};
  bool here = false;
};

/// Whether other devices may come in, by which way, and which may.
struct Network {
  bool on = false;
  std::int64_t seconds_left = 0;
  std::string off_because = {};
  std::vector<NetworkPlace> places = {};
  std::optional<Invitation> invitation = {};
  int wrong_codes = 0;
  std::string wrong_from = {};
  std::vector<NetworkDevice> devices = {};
  std::string trouble = {};
};

/// The switch.
struct DoNetwork {
  bool on = false;
  std::string token = {};
  std::string client = {};
};

/// A device that is not let in any more.
struct DoRevoke {
  std::int64_t device = 0;
  std::string token = {};
  std::string client = {};
};

/// An address that lets one more browser of this machine in.
struct AnotherBrowser {
  std::string address = {};
  std::int64_t seconds_left = 0;
};

/// The standing invitation as a QR code, SVG.
struct SheetQr {
  std::string url = {};
};

/// A device that asks to be let in.
struct Pair {
  std::string code = {};
  std::string name = {};
};

/// Who reads an event stream.
struct Here {
  std::string role = {};
  std::string name = {};
};

/// Devices as they are kept beside the book.
struct KeptDevice {
  std::int64_t device = 0;
  std::string name = {};
  std::string hash = {};
  std::string paired = {};
  std::string seen = {};
  std::string from = {};
};
struct KeptDevices {
  std::int64_t last = 0;
  std::vector<KeptDevice> devices = {};
};

}  // namespace portwright::wire
