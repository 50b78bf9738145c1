// A value that is rarely there, kept outside of its owner: lines are many, and most
// hold only an amount. Copies with its owner, as an optional does.
#pragma once

#include <memory>
#include <optional>
#include <utility>

namespace stave::syntax {

template <typename Value>
class Box {
public:
    Box() = default;
    Box(Value value) : value_(std::make_unique<Value>(std::move(value))) {}
    Box(std::optional<Value> value) {
        if (value) value_ = std::make_unique<Value>(std::move(*value));
    }
    Box(const Box& other) {
        if (other.value_) value_ = std::make_unique<Value>(*other.value_);
    }
    Box(Box&&) noexcept = default;
    Box& operator=(const Box& other) { return *this = Box(other); }
    Box& operator=(Box&&) noexcept = default;
    ~Box() = default;

    [[nodiscard]] explicit operator bool() const { return value_ != nullptr; }
    [[nodiscard]] bool has_value() const { return value_ != nullptr; }
    [[nodiscard]] Value& operator*() { return *value_; }
    [[nodiscard]] const Value& operator*() const { return *value_; }
    [[nodiscard]] Value* operator->() { return value_.get(); }
    [[nodiscard]] const Value* operator->() const { return value_.get(); }
    // Null where there is none.
    [[nodiscard]] const Value* get() const { return value_.get(); }

private:
    std::unique_ptr<Value> value_;
};

}  // namespace stave::syntax
