"""The words that sheets and jobs share where one word may stand for several."""
