#include "server/network/devices.hpp"

#include <algorithm>
#include <utility>

#include "desk/devices.hpp"
#include "server/entry.hpp"
#include "server/request.hpp"

namespace portwright::server {
namespace {

constexpr std::size_t longest_name = 40;
constexpr std::int64_t note_every = 600;  // [s]

// Letters of UTF-8, as far as the first byte of each tells.
std::size_t letters(const std::string& text) {
  return static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

auto find(wire::KeptDevices& kept, std::int64_t number) {
  return std::find_if(kept.devices.begin(), kept.devices.end(),
                      [&](const wire::KeptDevice& one) { return one.device == number; });
}

}  // namespace

base::Result<std::string> Devices::plain_name(const std::string& typed) {
  std::string name(without_blanks(typed));
  const bool controls =
      std::any_of(name.begin(), name.end(), [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7f; });
  if (name.empty() || letters(name) > longest_name || controls)
    return base::fail(base::ErrorCode::usage, "A device needs a name of 1 to 40 letters.", "name",
                      "Call it what you call it at the bench: phone, tablet by the lathe.");
  return name;
}

Devices::Devices(std::string path, Clock wall) : path_(std::move(path)), wall_(std::move(wall)) {}

bool Devices::is_forgotten(const wire::KeptDevice& device) const {
  return device.seen < desk::moment(wall_() - forgotten_after);
}

// With the guard held.
void Devices::take(const base::Result<wire::KeptDevices>& kept) {
  trouble_.clear();
  if (kept) {
    kept_ = *kept;
    return;
  }
  kept_ = {};
  trouble_ = "The list of devices cannot be read, so nobody is let in: " + path_ +
             ". Take the file away and pair the devices anew.";
}

// With the guard held.
void Devices::refresh() {
  const std::string now = desk::devices_stamp(path_);
  if (now == stamp_) return;
  stamp_ = now;
  take(desk::devices_read(path_));
}

base::Result<Devices::Added> Devices::add(const std::string& typed, const std::string& from) {
  const auto name = plain_name(typed);
  if (!name) return tl::unexpected(name.error());
  Added added;
  added.device.name = *name;
  added.cookie = random_word();
  const std::lock_guard hold(guard_);
  const auto kept = desk::devices_change(path_, [&](wire::KeptDevices& all) -> base::Result<void> {
    std::erase_if(all.devices, [&](const wire::KeptDevice& one) { return is_forgotten(one); });
    if (all.devices.size() >= most)
      return base::fail(base::ErrorCode::out_of_range, "As many devices are paired as may be.", "",
                        "On the machine, in the settings, revoke one that is not used any more.");
    added.device.number = ++all.last;
    const std::string now = desk::moment(wall_());
    all.devices.push_back({all.last, *name, desk::word_hash(added.cookie), now, now, from});
    return {};
  });
  if (!kept) return tl::unexpected(kept.error());
  take(kept);
  stamp_ = desk::devices_stamp(path_);
  return added;
}

std::optional<Device> Devices::of(std::string_view cookie) {
  const std::string hash = desk::word_hash(cookie);
  const std::lock_guard hold(guard_);
  refresh();
  std::optional<Device> out;
  for (const wire::KeptDevice& one : kept_.devices)
    if (same_secret(hash, one.hash) && !is_forgotten(one)) out = Device{one.device, one.name};
  return out;
}

bool Devices::is_known(std::int64_t number) {
  const std::lock_guard hold(guard_);
  refresh();
  const auto found = find(kept_, number);
  return found != kept_.devices.end() && !is_forgotten(*found);
}

void Devices::saw(std::int64_t number, const std::string& from) {
  const std::lock_guard hold(guard_);
  const auto known = find(kept_, number);
  if (known == kept_.devices.end()) return;
  const std::int64_t now = wall_();
  known->seen = desk::moment(now);
  known->from = from;
  auto& [noted_from, noted_at] = noted_[number];
  if (noted_from == from && now - noted_at < note_every) return;
  noted_from = from;
  noted_at = now;
  const auto kept = desk::devices_change(path_, [&](wire::KeptDevices& all) -> base::Result<void> {
    if (const auto one = find(all, number); one != all.devices.end()) {
      one->seen = desk::moment(now);
      one->from = from;
    }
    return {};
  });
  if (!kept) return;  // a full disk keeps nobody from reading
  take(kept);
  stamp_ = desk::devices_stamp(path_);
}

base::Result<void> Devices::revoke(std::int64_t number) {
  const std::lock_guard hold(guard_);
  const auto kept = desk::devices_change(path_, [&](wire::KeptDevices& all) -> base::Result<void> {
    const auto found = find(all, number);
    if (found == all.devices.end())
      return base::fail(base::ErrorCode::not_found, "There is no such device any more.", "device");
    all.devices.erase(found);
    return {};
  });
  if (!kept) {
    // The file keeps it, but this program lets it in no more.
    std::erase_if(kept_.devices, [&](const wire::KeptDevice& one) { return one.device == number; });
    return tl::unexpected(kept.error());
  }
  take(kept);
  stamp_ = desk::devices_stamp(path_);
  return {};
}

std::vector<wire::KeptDevice> Devices::list() {
  const std::lock_guard hold(guard_);
  refresh();
  std::vector<wire::KeptDevice> out;
  for (const wire::KeptDevice& one : kept_.devices)
    if (!is_forgotten(one)) out.push_back(one);
  return out;
}

std::string Devices::trouble() {
  const std::lock_guard hold(guard_);
  refresh();
  return trouble_;
}

}  // namespace portwright::server
