#pragma once
// A saw kept open between questions. Inside the module only.

#include <mutex>
#include <optional>

#include "desk/case.hpp"
#include "desk/page.hpp"

namespace portwright::desk {

class Opened {
 public:
  Opened(Case stock, std::string file) : stock_(std::move(stock)), file_(std::move(file)) {}

  /// The case without cuts.
  [[nodiscard]] const Case& stock() const { return stock_; }
  [[nodiscard]] const std::string& file() const { return file_; }
  /// The case with a cut list; errors as of with_cuts().
  [[nodiscard]] base::ResultAll<Case> with(const std::string& cuts) const;
  /// The stock's samples at a speed; those of the speed asked last are kept.
  [[nodiscard]] study::KeptStock samples(const study::Options& options) const;

 private:
  Case stock_;
  std::string file_;
  mutable std::mutex lock_;
  mutable std::optional<double> speed_;
  mutable study::KeptStock samples_;
};

}  // namespace portwright::desk
