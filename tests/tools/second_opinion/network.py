"""The network that is trained: a small conformer on the encoder's frames, as plain functions of named weights.

The program runs the same in numpy, `saythesum.hearing.embedded.second_opinion`.

Source: A. Gulati et al., Conformer: Convolution-augmented Transformer for Speech Recognition, Interspeech 2020.
"""

from dataclasses import dataclass
from typing import Any

import torch
from torch.nn import functional

Weights = dict[str, Any]
FRAME_SIZE = 288


@dataclass(frozen=True, slots=True)
class Shape:
    width: int = 160
    blocks: int = 2
    heads: int = 4
    kernel: int = 15
    inner: int = 448
    questions: int = 4
    """How many weighted means of the frames the whole answer is read from."""


@dataclass(frozen=True, slots=True)
class Dropped:
    """Shares that are left out at random while learning."""

    start: float = 0.15
    block: float = 0.2
    end: float = 0.3


def new_weights(shape: Shape, words: int, meanings: int, device: str) -> Weights:
    """Linear and convolution weights as PyTorch begins with them."""
    width = shape.width
    made: Weights = {}

    def linear(name: str, inputs: int, outputs: int) -> None:
        made[f"{name}.weight"] = _uniform((outputs, inputs), inputs, device)
        made[f"{name}.bias"] = _uniform((outputs,), inputs, device)

    def norm(name: str) -> None:
        made[f"{name}.weight"], made[f"{name}.bias"] = (
            torch.ones(width, device=device),
            torch.zeros(width, device=device),
        )

    def convolution(name: str, kernel: int, inputs: int) -> None:
        made[f"{name}.weight"] = _uniform((width, inputs, kernel), inputs * kernel, device)
        made[f"{name}.bias"] = _uniform((width,), inputs * kernel, device)

    linear("start", FRAME_SIZE, width)
    norm("start_norm")
    convolution("near", 5, width)
    for block in range(shape.blocks):
        name = f"block{block}"
        for part in ("gate", "depth", "look", "inner"):
            norm(f"{name}.{part}_norm")
        linear(f"{name}.gate", width, 2 * width)
        convolution(f"{name}.depth", shape.kernel, 1)
        linear(f"{name}.mix", width, width)
        linear(f"{name}.look", width, 3 * width)
        linear(f"{name}.seen", width, width)
        linear(f"{name}.inner", width, shape.inner)
        linear(f"{name}.outer", shape.inner, width)
    norm("end_norm")
    linear("words", width, words)
    linear("questions", width, shape.questions)
    linear("meanings", shape.questions * width, meanings)
    return {name: weight.requires_grad_() for name, weight in made.items()}


def _uniform(size: tuple[int, ...], inputs: int, device: str) -> Any:
    reach = inputs**-0.5
    return torch.empty(size, device=device).uniform_(-reach, reach)


def scores(
    weights: Weights, shape: Shape, frames: Any, lengths: Any, dropped: Dropped | None = None
) -> tuple[Any, Any]:
    """Log-probabilities of the words at each frame, and of the meanings of the whole. `dropped` only while learning."""
    count = frames.shape[1]
    is_inside = torch.arange(count, device=frames.device)[None] < lengths[:, None]
    inside = is_inside[..., None].float()
    drop = _dropper(dropped)
    hidden = functional.silu(_norm(weights, "start_norm", _linear(weights, "start", frames)))
    hidden = drop(hidden, "start") * inside
    near = functional.conv1d(hidden.transpose(1, 2), weights["near.weight"], weights["near.bias"], padding=2)
    hidden = (hidden + functional.silu(near.transpose(1, 2))) * inside
    for block in range(shape.blocks):
        hidden = _block(weights, f"block{block}", shape, hidden, is_inside=is_inside, drop=drop)
    hidden = _norm(weights, "end_norm", hidden)
    attention = _linear(weights, "questions", hidden).masked_fill(~is_inside[..., None], -1e4).softmax(1)
    answer = torch.einsum("btq,btd->bqd", attention, hidden).flatten(1)
    words = _linear(weights, "words", hidden).log_softmax(-1)
    return words, _linear(weights, "meanings", drop(answer, "end")).log_softmax(-1)


def _block(weights: Weights, name: str, shape: Shape, hidden: Any, *, is_inside: Any, drop: Any) -> Any:
    inside = is_inside[..., None].float()
    batch, count, width = hidden.shape
    gated = functional.glu(_linear(weights, f"{name}.gate", _norm(weights, f"{name}.gate_norm", hidden)), -1) * inside
    deep = functional.conv1d(
        gated.transpose(1, 2),
        weights[f"{name}.depth.weight"],
        weights[f"{name}.depth.bias"],
        padding=shape.kernel // 2,
        groups=width,
    ).transpose(1, 2)
    mixed = _linear(weights, f"{name}.mix", functional.silu(_norm(weights, f"{name}.depth_norm", deep)))
    hidden = (hidden + drop(mixed, "block")) * inside
    looks = _linear(weights, f"{name}.look", _norm(weights, f"{name}.look_norm", hidden))
    query, key, value = looks.view(batch, count, 3, shape.heads, width // shape.heads).permute(2, 0, 3, 1, 4)
    seen = functional.scaled_dot_product_attention(query, key, value, attn_mask=is_inside[:, None, None, :])
    seen = seen.transpose(1, 2).reshape(batch, count, width)
    hidden = hidden + drop(_linear(weights, f"{name}.seen", seen), "block")
    inner = functional.silu(_linear(weights, f"{name}.inner", _norm(weights, f"{name}.inner_norm", hidden)))
    return (hidden + drop(_linear(weights, f"{name}.outer", drop(inner, "block")), "block")) * inside


def _dropper(dropped: Dropped | None) -> Any:
    def drop(values: Any, place: str) -> Any:
        return functional.dropout(values, getattr(dropped, place)) if dropped else values

    return drop


def _linear(weights: Weights, name: str, values: Any) -> Any:
    return functional.linear(values, weights[f"{name}.weight"], weights[f"{name}.bias"])


def _norm(weights: Weights, name: str, values: Any) -> Any:
    return functional.layer_norm(values, values.shape[-1:], weights[f"{name}.weight"], weights[f"{name}.bias"])
