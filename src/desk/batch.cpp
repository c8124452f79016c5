#include "desk/batch.hpp"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <deque>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <map>
#include <memory>
#include <mutex>
#include <span>
#include <vector>

#include "base/file.hpp"
#include "cycle/lanes/reach_lanes.hpp"
#include "desk/turning.hpp"
#include "wire/batch.hpp"

namespace portwright::desk {
namespace {

constexpr std::size_t longest_input = 64u << 20, most_lines = 200000;
/// Lines that are worked on together: some times what the lanes of two cores hold.
constexpr std::size_t chunk = 96;
constexpr double bar = 1e-5, kilo = 1e-3, ice = 273.15;

struct Line {
  int number = 0;
  std::string text;
};

base::Result<std::vector<Line>> lines_of(const BatchRequest& request) {
  std::string text;
  if (request.input == "-") {
    text.assign(std::istreambuf_iterator<char>(std::cin), {});
  } else {
    auto read = base::read_file(request.input, longest_input);
    if (!read) return tl::unexpected(read.error());
    text = *std::move(read);
  }
  std::vector<Line> out;
  int number = 0;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    ++number;
    std::string line = text.substr(at, end - at);
    at = end + 1;
    if (line.find_first_not_of(" \t\r") == std::string::npos) continue;
    if ((number - 1) % request.of != request.part - 1) continue;
    out.push_back({number, std::move(line)});
  }
  if (out.size() > most_lines)
    return base::fail(base::ErrorCode::out_of_range, "There are more than 200,000 lines.", {}, "Part them: --part.");
  return out;
}

/// How many of the lines an output answers already. A line torn in the writing is taken off it.
base::Result<std::size_t> answered(const BatchRequest& request, const std::vector<Line>& lines) {
  std::error_code ignored;
  const bool to_file = !request.output.empty() && request.output != "-";
  if (!to_file || !std::filesystem::exists(request.output, ignored)) return std::size_t{0};
  auto read = base::read_file(request.output, 16 * longest_input);
  if (!read) return tl::unexpected(read.error());
  if (!read->empty() && !request.go_on)
    return base::fail(base::ErrorCode::storage, "\u201C" + request.output + "\u201D is already there.", {},
                      "Choose another name, or go on from it: --go-on.");
  const std::size_t whole = read->rfind('\n') == std::string::npos ? 0 : read->rfind('\n') + 1;
  const auto other = [&] {
    return base::fail(base::ErrorCode::storage, "\u201C" + request.output + "\u201D answers other lines.", {},
                      "Go on with the same input and the same part, or choose another name.");
  };
  std::size_t count = 0;
  for (std::size_t at = 0; at < whole; ++count) {
    const std::size_t end = read->find('\n', at);
    const auto number = wire::batch_line_number(std::string_view(*read).substr(at, end - at));
    if (!number || count >= lines.size() || *number != lines[count].number) return other();
    at = end + 1;
  }
  if (whole == 0 && !read->empty() && read->front() != '{') return other();
  if (whole < read->size()) std::filesystem::resize_file(request.output, whole, ignored);
  if (ignored) return base::fail(base::ErrorCode::storage, "\u201C" + request.output + "\u201D could not be mended.");
  return count;
}

/// The cases of one chunk, each opened once.
class Cases {
 public:
  explicit Cases(std::string book) : book_(std::move(book)) {}

  /// Null: `errors` says why.
  const cycle::Network* network(const wire::BatchCase& of, base::Errors& errors) {
    const auto [place, fresh] = known_.try_emplace({of.file, of.cuts});
    if (fresh) place->second = open(of);
    if (!place->second) {
      errors = place->second.error();
      return nullptr;
    }
    return place->second->get();
  }

 private:
  using Opened = base::ResultAll<std::unique_ptr<cycle::Network>>;

  [[nodiscard]] Opened open(const wire::BatchCase& of) const {
    // Standard input holds the lines; a saw cannot come from it, too.
    if (of.file == "-")
      return tl::unexpected(base::Errors{{base::ErrorCode::usage, "A line names its saw file.", "file", "", {}}});
    const auto opened = open_turning(of.file, of.cuts, book_);
    if (!opened) return tl::unexpected(opened.error());
    auto sides = sides_of(*opened);
    if (!sides) return tl::unexpected(sides.error());
    return std::make_unique<cycle::Network>(std::move((*sides)->cut_network));
  }

  std::string book_;
  std::map<std::pair<std::string, std::string>, Opened> known_;
};

wire::BatchPoint told(const cycle::Point& point) {
  wire::BatchPoint out;
  out.power_kw = kilo * point.power;
  out.torque_nm = point.torque;
  out.imep_bar = bar * point.imep;
  out.delivery_ratio = point.delivery_ratio;
  out.trapping = point.trapping;
  out.charging = point.charging;
  out.peak_pressure_bar = bar * point.peak_pressure;
  out.exhaust_c = point.exhaust_temperature - ice;
  out.knock = point.knock;
  out.heat_w = point.heat_cylinder;
  out.label = settled_name(point.label);
  out.error = point.error;
  out.turns = point.turns;
  return out;
}

class Batch {
 public:
  Batch(const BatchRequest& request, const BatchWatch& watch) : request_(request), watch_(watch) {}

  base::Result<BatchCount> go() {
    const auto lines = lines_of(request_);
    if (!lines) return tl::unexpected(lines.error());
    const auto before = answered(request_, *lines);
    if (!before) return tl::unexpected(before.error());
    count_.lines = static_cast<int>(lines->size());
    count_.before = done_ = static_cast<int>(*before);
    if (!request_.output.empty() && request_.output != "-") {
      file_.open(request_.output, std::ios::binary | std::ios::app);
      if (!file_)
        return base::fail(base::ErrorCode::storage, "\u201C" + request_.output + "\u201D could not be written.");
    }
    for (std::size_t from = *before; from < lines->size() && !stopped_; from += chunk) {
      const std::size_t to = std::min(lines->size(), from + chunk);
      if (auto kept = work({lines->data() + from, to - from}); !kept) return tl::unexpected(kept.error());
    }
    count_.stopped = stopped_;
    return count_;
  }

 private:
  base::Result<void> work(std::span<const Line> lines) {
    Cases cases(request_.book);
    std::vector<wire::BatchLine> out(lines.size());
    std::vector<cycle::LanePoint> points;
    std::vector<std::size_t> of;
    for (std::size_t i = 0; i < lines.size(); ++i) {
      out[i].line = lines[i].number;
      const cycle::Network* network = asked(lines[i], cases, out[i]);
      if (network == nullptr) continue;
      cycle::LanePoint point;
      point.network = network;
      point.speed = out[i].of.rpm / rpm_per_rev;
      point.plan.scattered_turns = network->has_reed ? 8 : 0;
      points.push_back(std::move(point));
      of.push_back(i);
    }
    turned_ = 0;
    cycle::reach_side_by_side<double>(points, request_.threads, stop(), turned_);
    if (stopped_) return {};  // nothing of a chunk that was not finished: the next run begins with it
    for (std::size_t k = 0; k < points.size(); ++k) out[of[k]].point = told(points[k].point);
    std::string text;
    for (const wire::BatchLine& line : out) {
      text += wire::batch_line_text(line);
      count_.failed += line.errors.empty() ? 0 : 1;
    }
    std::ostream& to = file_.is_open() ? static_cast<std::ostream&>(file_) : std::cout;
    to << text << std::flush;
    if (!to) return base::fail(base::ErrorCode::storage, "The answers could not be written.");
    done_ += static_cast<int>(lines.size());
    return {};
  }

  /// Null: the line says why.
  static const cycle::Network* asked(const Line& line, Cases& cases, wire::BatchLine& out) {
    auto read = wire::read_batch_case(line.text);
    if (!read) {
      out.errors = {read.error()};
      return nullptr;
    }
    out.of = *std::move(read);
    if (!(out.of.rpm >= least_rpm && out.of.rpm <= greatest_rpm)) {
      out.errors = {{base::ErrorCode::out_of_range, "A speed lies between 1,000 and 20,000 rpm.", "rpm", "", {}}};
      if (!std::isfinite(out.of.rpm)) out.of.rpm = 0.0;
      return nullptr;
    }
    return cases.network(out.of, out.errors);
  }

  cycle::StopCall stop() {
    return {[](void* self) {
              auto* batch = static_cast<Batch*>(self);
              if (!batch->stopped_ && batch->watch_ && batch->told_to_stop()) batch->stopped_ = true;
              return batch->stopped_.load();
            },
            this};
  }
  /// Asked from every thread; whoever comes second does not wait.
  bool told_to_stop() {
    const std::unique_lock lock(telling_, std::try_to_lock);
    return lock.owns_lock() && watch_(done_ + static_cast<int>(turned_.load()), count_.lines);
  }

  const BatchRequest& request_;
  const BatchWatch& watch_;
  std::ofstream file_;
  BatchCount count_;
  int done_ = 0;
  std::atomic<std::size_t> turned_{0};
  std::atomic<bool> stopped_{false};
  std::mutex telling_;
};

}  // namespace

base::Result<BatchCount> batch(const BatchRequest& request, const BatchWatch& watch) {
  if (request.of < 1 || request.part < 1 || request.part > request.of)
    return base::fail(base::ErrorCode::usage, "A part is numbered from 1 to how many there are.", "part",
                      "As in --part 2/8.");
  return Batch(request, watch).go();
}

}  // namespace portwright::desk
